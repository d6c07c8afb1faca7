" Comments start with a number sign and go to the end of the line.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1
let b:undo_ftplugin = 'setlocal comments< commentstring< shiftwidth< expandtab<'
setlocal comments=:# commentstring=#\ %s shiftwidth=2 expandtab
