" Colours by shape alone: what a word means is the server's business, so no list of words can go stale here.
if exists('b:current_syntax')
  finish
endif
syntax case match
syntax match finwrightNumber /\v<\d+%(\.\d+)?%([eE][-+]?\d+)?/ nextgroup=finwrightUnit skipwhite
" A unit follows its number; a word that a colon or a brace follows is something else.
syntax match finwrightUnit /\v%(%(°|µ)?\a+[0-9²³]?%([\/·]\a+[0-9²³]?)*|\%)>?%(\s*[:{(])@!/ contained
syntax match finwrightField /\v<[a-z_]+>\ze\s*:/
syntax match finwrightBlock /\v<[a-z_]+>\ze%(\s+\k+|\s+"[^"]*")?\s*\{/ nextgroup=finwrightName skipwhite
syntax match finwrightName /\v\k+\ze\s*\{/ contained
syntax match finwrightLead /\v^\s*\zs%(let|use|finwright)>/
syntax region finwrightText start=/"/ end=/"/ oneline
syntax match finwrightTolerance "±\|+/-"
syntax match finwrightComment /#.*/ contains=@Spell
highlight default link finwrightNumber Number
highlight default link finwrightUnit Type
highlight default link finwrightField Identifier
highlight default link finwrightBlock Statement
highlight default link finwrightName Function
highlight default link finwrightLead Keyword
highlight default link finwrightText String
highlight default link finwrightTolerance Operator
highlight default link finwrightComment Comment
let b:current_syntax = 'finwright'
