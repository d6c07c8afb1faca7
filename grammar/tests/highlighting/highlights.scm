; Written from grammar/tests/highlighting by the test `highlighting`; FINWRIGHT_UPDATE=1 writes it anew.
; A later pattern goes before an earlier one: a word that the language doesn't have is a name like any other.

(name) @variable

(comment) @comment
(string) @string

["finwright" "use" "let" "like" "file"] @keyword
["from" "ahead" "behind" "of" "above" "after" "at"] @keyword.operator

(version (whole) @number)
(binding name: (name) @constant)

((block word: (name) @type)
  (#any-of? @type
    <<blocks>>))
(block name: (name) @function)
(block like: (name) @function)

((field name: (name) @property)
  (#any-of? @property
    <<fields>>))

(number) @number
(unit) @type.builtin

((choice (name) @constant.builtin)
  (#any-of? @constant.builtin
    <<choices>>))
((field value: (measure . (named . (name) @constant.builtin .) .))
  (#any-of? @constant.builtin
    <<choices>>))

((call function: (name) @function.builtin)
  (#any-of? @function.builtin
    <<functions>>))

((event moment: (name) @constant.builtin)
  (#any-of? @constant.builtin "delay" "top"))
((moment anchor: (name) @constant.builtin)
  (#any-of? @constant.builtin "ground" "top"))

((edge anchor: (name) @constant.builtin)
  (#any-of? @constant.builtin "front" "back" "tip" "tail"))
(edge edge: (name) @constant.builtin)
((side anchor: (name) @constant.builtin)
  (#any-of? @constant.builtin "balance"))

(operator) @operator
(give_or_take) @operator
(sign) @operator
["="] @operator
["{" "}" "[" "]" "(" ")"] @punctuation.bracket
[":" ";" "," "."] @punctuation.delimiter
