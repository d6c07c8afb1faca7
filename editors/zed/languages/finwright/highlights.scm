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
    "airframe" "ballast" "booster" "bulkhead" "button" "cord" "coupler" "design" "fins" "flight" "flown" "hook" "load" "lug" "material" "measured" "motor" "mount" "nose" "pad" "parachute" "rail" "rail_guide" "ring_fin" "rings" "rod" "section" "shoulder" "site" "streamer" "taper" "thrust_ring" "tower" "tube" "tube_fins"))
(block name: (name) @function)
(block like: (name) @function)

((field name: (name) @property)
  (#any-of? @property
    "across" "after_release" "at" "back" "balance" "base" "bears" "booster_motor" "bore" "builder" "button_mass" "carries" "circle" "clock" "code" "count" "curve" "delay" "density" "diameter" "drag" "drag_factor" "elevation" "end" "exit_speed" "fillet" "flight" "foot" "friction" "front" "guide_mass" "guided_by" "gust" "height" "inner" "joint" "joint_play" "joint_step" "leading" "leans" "length" "log" "mass" "material" "motor" "motors" "mouth" "note" "off_axis" "opens" "outer" "outline" "pad" "people" "plan" "pressure" "profile" "propellant" "rails" "root" "screw" "second_moment" "shape" "shear" "site" "slot" "span" "staked" "stance" "standoff" "sticks_out" "stiffness" "stop" "surface" "sweep" "tab_depth" "tab_length" "temperature" "thickness" "thrust_factor" "tilt" "time_to_top" "tip" "trace" "trailing" "wall" "width" "wind" "with" "yields"))

(number) @number
(unit) @type.builtin

((choice (name) @constant.builtin)
  (#any-of? @constant.builtin
    "across_wind" "bare" "blunt" "capped" "cone" "ellipse" "ellipsoid" "falls_away" "haack" "into_wind" "ogive" "open" "painted" "parabola" "polished" "power" "rounded" "sharp" "stays" "straight" "trapezoid" "with_wind"))
((field value: (measure . (named . (name) @constant.builtin .) .))
  (#any-of? @constant.builtin
    "across_wind" "bare" "blunt" "capped" "cone" "ellipse" "ellipsoid" "falls_away" "haack" "into_wind" "ogive" "open" "painted" "parabola" "polished" "power" "rounded" "sharp" "stays" "straight" "trapezoid" "with_wind"))

((call function: (name) @function.builtin)
  (#any-of? @function.builtin
    "abs" "cos" "max" "min" "round" "sin" "sqrt" "tan"))

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
