" A block's lines stand in from the block; what is in an open bracket too.
if exists('b:did_indent')
  finish
endif
let b:did_indent = 1
setlocal indentexpr=FinwrightIndent(v:lnum) indentkeys=0},0],0),o,O,!^F nosmartindent
let b:undo_indent = 'setlocal indentexpr< indentkeys< smartindent<'

if exists('*FinwrightIndent')
  finish
endif

" How many brackets of a line stay open; those in texts and remarks are none.
function s:opened(line) abort
  let bare = substitute(substitute(a:line, '"[^"]*"', '', 'g'), '#.*', '', '')
  let bare = substitute(bare, '^\s*[}\])]\+', '', '')
  let open = len(substitute(bare, '[^{\[(]', '', 'g'))
  let closed = len(substitute(bare, '[^}\])]', '', 'g'))
  return open - closed
endfunction

function FinwrightIndent(lnum) abort
  let before = prevnonblank(a:lnum - 1)
  if before == 0
    return 0
  endif
  let depth = indent(before)
  let opened = s:opened(getline(before))
  if opened != 0
    let depth += (opened > 0 ? 1 : -1) * shiftwidth()
  endif
  if getline(a:lnum) =~# '^\s*[}\])]'
    let depth -= shiftwidth()
  endif
  return depth < 0 ? 0 : depth
endfunction
