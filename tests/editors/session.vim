" A session in a real Vim with ALE: open, look, jump, indent.  What was seen goes to a file as JSON.

let s:seen = {}

function s:wait(what, Condition) abort
  for s:times in range(500)
    if a:Condition()
      return
    endif
    sleep 20m
  endfor
  throw 'nothing came of it: ' . a:what
endfunction

function s:found() abort
  let found = copy(ale#engine#GetLoclist(bufnr('')))
  return filter(found, {_, one -> get(one, 'code', '') is# 'name/unknown-name'})
endfunction

function s:session() abort
  execute 'edit' fnameescape($DESIGN)
  let s:seen.filetype = &filetype
  let before = getline(1, '$')
  normal! gg=G
  let s:seen.indented = getline(1, '$') ==# before ? 'as it was' : join(getline(1, '$'), "\n")
  call append('$', ['', 'site hill {'])
  call cursor(line('$'), 1)
  execute "normal! oelevation: 4 m\<CR>}"
  let s:seen.typed = getline(line('$') - 2, '$')
  silent undo
  silent undo
  call setline(1, before)
  call s:wait('the finding', {-> len(s:found()) == 1})
  let found = s:found()[0]
  let s:seen.found = strpart(getline(found.lnum), found.col - 1, found.end_col - found.col + 1)
  let s:seen.message = found.text
  call search('base: \zscaliber')
  ALEGoToDefinition
  call s:wait('the definition', {-> getline('.') =~# '^let caliber'})
  let s:seen.definition = getline('.')
endfunction

try
  call s:session()
catch
  let s:seen.trouble = v:exception . ' at ' . v:throwpoint
endtry
call writefile([json_encode(s:seen)], $SEEN)
qall!
