// The finwright language for editors that colour by tree-sitter.
//
// A newline ends a statement, so that it's a token here and not white space; only a list goes on over lines. Words such as
// `from` are names wherever they can't be anything else.

const NAME = /[a-zA-Z_\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u02FF\u0370-\u1FFF\u3040-\uD7FF][a-z0-9_A-Z\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u02FF\u0370-\u1FFF\u3040-\uD7FF]*/;

// A unit is any word that doesn't start like `from`, `ahead` or `behind`, perhaps with an exponent, perhaps joined to others.
const PART = "[a-z0-9_A-Z\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u02FF\\u0370-\\u1FFF\\u3040-\\uD7FF]*(\\^[1-9]|[²³⁴])?";
const ATOM = `((([g-zc-eA-Z]|f[a-qs-z]|a[a-gi-z]|b[a-df-z]|µ|μ)${PART})|%|°[CF]?)`;
const UNIT = new RegExp(`${ATOM}([/.·*]${ATOM})*`);

const separated = (rule, separator) => seq(rule, repeat(seq(separator, rule)));

// Statements, each ended by a newline or a `;`, the last perhaps by what is around them; a block ends itself.
const body = ($) => seq(
  repeat(choice($._newline, ";", $.block, seq($._statement, choice($._newline, ";")))),
  optional($._statement),
);

module.exports = grammar({
  name: "finwright",
  word: ($) => $.name,
  extras: ($) => [/[ \t\u00A0]/, $.comment],

  rules: {
    source_file: ($) => seq(optional("\uFEFF"), body($)),

    _newline: () => /\r\n|\n|\r/,
    comment: () => /#[^\r\n]*/,

    block: ($) => seq(
      field("word", $.name),
      optional(field("name", $.name)),
      optional(seq("like", field("like", $.name))),
      optional(field("title", $.string)),
      "{",
      body($),
      "}",
    ),

    _statement: ($) => choice($.field, $.binding, $.import, $.version),
    version: ($) => seq("finwright", $.whole),
    import: ($) => seq("use", field("path", $.string)),
    binding: ($) => seq("let", field("name", $.name), "=", field("value", $.measure)),
    field: ($) => seq(field("name", $.name), ":", field("value", $._value)),

    _value: ($) => choice($.measure, $.event, $.choice, $.file, $.list, $.string),
    event: ($) => seq("at", field("moment", $.name)),
    choice: ($) => seq($.name, $.number),
    file: ($) => seq("file", $.string),
    list: ($) => seq("[", optional($._row), repeat(seq($._newline, optional($._row))), "]"),
    _row: ($) => seq(separated($.element, ","), optional(",")),
    element: ($) => seq($._sum, optional(choice(seq(":", $._sum), seq(optional($._tolerance), $._relation)))),
    measure: ($) => seq($._sum, optional($._tolerance), optional(choice($._relation, $.moment, $.height))),
    _tolerance: ($) => seq($.give_or_take, $._sum),
    give_or_take: () => choice("±", "+/-"),

    _relation: ($) => choice($.edge, $.side),
    edge: ($) => seq("from", field("anchor", $.name), optional(seq(token.immediate("."), field("edge", $._rest)))),
    side: ($) => seq(choice("ahead", "behind"), optional("of"), field("anchor", $.name)),
    moment: ($) => seq(choice("above", "after"), field("anchor", $.name)),
    height: ($) => seq("at", $._sum),

    _sum: ($) => separated($._factor, $.operator),
    operator: () => choice("*", "/", "+", "-", "−"),
    _factor: ($) => seq(repeat($.sign), choice($.quantity, $.named, $.call, $.group)),
    sign: () => choice("+", "-", "−"),
    group: ($) => seq("(", $._sum, ")"),
    call: ($) => seq(field("function", $.name), "(", optional(separated($._sum, ",")), ")"),
    named: ($) => seq($.name, repeat(seq(token.immediate("."), $._rest))),
    _rest: ($) => alias(token.immediate(NAME), $.name),

    quantity: ($) => seq($.number, optional($.unit)),
    number: () => token(choice(
      /[0-9]+\/[0-9]+(\.[0-9]+)?/,
      /[0-9]+ +[0-9]+\/[0-9]+/,
      /[0-9]+(\.[0-9]*)?([eE][+-]?[0-9]+)?/,
      /\.[0-9]+([eE][+-]?[0-9]+)?/,
    )),
    whole: () => /[0-9]+/,
    unit: () => token(prec(1, UNIT)),
    string: () => /"[^"\r\n]*"/,
    name: () => NAME,
  },
});
