" The finwright language server for ALE: findings, hovers, completion, fixes and names.
call ale#Set('finwright_finwright_executable', 'finwright')

function! s:root(buffer) abort
  let git = ale#path#FindNearestDirectory(a:buffer, '.git')
  return empty(git) ? fnamemodify(bufname(a:buffer), ':p:h') : fnamemodify(git, ':h:h')
endfunction

call ale#linter#Define('finwright', {
\   'name': 'finwright',
\   'lsp': 'stdio',
\   'executable': {buffer -> ale#Var(buffer, 'finwright_finwright_executable')},
\   'command': '%e lsp',
\   'project_root': function('s:root'),
\   'language': 'finwright',
\})
