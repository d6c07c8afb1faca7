//! The table itself.

use super::{BlockWord, ChoiceWord, FieldKind, FieldWord, Kind, Limit, Naming};
use finwright_units::Dimension as D;

const fn quantity(word: &'static str, dimension: D, example: &'static str, doc: &'static str) -> FieldWord {
    field(word, FieldKind::Quantity(dimension), example, doc).positive()
}

const fn field(word: &'static str, kind: FieldKind, example: &'static str, doc: &'static str) -> FieldWord {
    FieldWord { word, kind, limit: Limit::Any, needed: false, hardly_matters: false, default: "", doc, example }
}

impl FieldWord {
    const fn needed(mut self) -> FieldWord {
        self.needed = true;
        self
    }
    const fn hardly_matters(mut self) -> FieldWord {
        self.hardly_matters = true;
        self
    }
    const fn positive(mut self) -> FieldWord {
        self.limit = Limit::Positive;
        self
    }
    const fn or_zero(mut self) -> FieldWord {
        self.limit = Limit::NotNegative;
        self
    }
    const fn any(mut self) -> FieldWord {
        self.limit = Limit::Any;
        self
    }
    const fn between(mut self, low: f64, high: f64) -> FieldWord {
        self.limit = Limit::Between(low, high);
        self
    }
    const fn or(mut self, default: &'static str) -> FieldWord {
        self.default = default;
        self
    }
}

const fn word(word: &'static str, doc: &'static str) -> ChoiceWord {
    ChoiceWord { word, number: None, doc }
}

const SHAPES: &[ChoiceWord] = &[
    word("cone", "straight sides from the point to the base"),
    word("ogive", "a circular arc that meets the tube without a kink (tangent ogive)"),
    word("ellipsoid", "half an ellipsoid; as long as its base is wide at its middle, it's a hemisphere"),
    ChoiceWord {
        word: "parabola",
        number: Some((0.0, 1.0, 1.0)),
        doc: "the parabolic series, from 0 (a cone) to 1 (meets the tube without a kink)",
    },
    ChoiceWord {
        word: "power",
        number: Some((0.05, 1.0, 0.5)),
        doc: "radius grows with the distance from the tip to this power; 0.5 is a paraboloid, 1 a cone",
    },
    ChoiceWord {
        word: "haack",
        number: Some((0.0, 1.0 / 3.0, 0.0)),
        doc: "the least-drag series; 0 for given length and diameter (von Kármán), 1/3 for given length and volume",
    },
];

const LEANS: &[ChoiceWord] = &[
    word("into_wind", "towards where the wind comes from"),
    word("with_wind", "away from it, downwind"),
    word("across_wind", "square to it"),
];

const EDGES: &[ChoiceWord] =
    &[word("blunt", "left square"), word("rounded", "sanded round"), word("sharp", "sanded to an edge")];

const FINISHES: &[ChoiceWord] = &[
    word("bare", "paper, or wood sanded and left so, roughness about 15 µm"),
    word("painted", "a coat from a spray can, roughness about 20 µm: no smoother than sanded wood"),
    word("polished", "filled, sanded and polished, roughness about 1 µm"),
];

const MATERIAL: FieldWord = field(
    "material",
    FieldKind::ReferenceOr(Kind::Material, D::DENSITY),
    "balsa",
    "What it's made of: a built-in material, one that the file defines, or just its density.",
);
const MASS: FieldWord = quantity(
    "mass",
    D::MASS,
    "12.5 g",
    "The mass as weighed. It's used instead of the one computed from size and density, and shown as measured.",
);
const BALANCE: FieldWord = field(
    "balance",
    FieldKind::Place,
    "30 mm from front",
    "Where the part itself balances, as measured. It's used instead of the place computed from its shape.",
);
const AT: FieldWord = field(
    "at",
    FieldKind::Places,
    "3 mm from back",
    "Where it sits. `from front` and `from tip` place its front edge, `from back` and `from tail` its back edge; \
        small things are placed by their middle; of fins the root counts.",
);
const OPENS: FieldWord = field(
    "opens",
    FieldKind::Opening,
    "at top",
    "When it opens: `at delay`, by the motor's charge; `at top`, the highest point; `2 s after top`; or `150 m above \
        ground`, on the way down. Those that are open together add their areas.",
)
.or("at delay");
const CLOCK: FieldWord = quantity(
    "clock",
    D::ANGLE,
    "60 deg",
    "The angle around the body, seen from behind, turning clockwise; the first fin stands at 0 unless it says \
        otherwise.",
)
.any()
.hardly_matters();
const LENGTH: FieldWord = quantity("length", D::LENGTH, "430 mm", "Length along the rocket.").needed();
const PLANS: &[ChoiceWord] = &[
    word("trapezoid", "straight edges, the tip parallel to the root"),
    word("ellipse", "half an ellipse on the root"),
];
const TAPERS: &[ChoiceWord] =
    &[word("straight", "straight sides"), word("ogive", "a circular arc that leaves the wider end without a kink")];
const SURFACE: FieldWord = field(
    "surface",
    FieldKind::ChoiceOr(FINISHES, D::LENGTH),
    "painted",
    "How smooth it is: bare, painted, polished, or its roughness such as `60 um`. It matters for drag.",
)
.positive()
.hardly_matters()
.or("painted");

const DRAG_FACTOR: FieldWord = quantity(
    "drag_factor",
    D::NUMBER,
    "1.12 ± 0.08",
    "What the drag is multiplied by, as flights have shown: see `flown`.",
)
.between(0.3, 3.0)
.hardly_matters()
.or("1");
const AFTER_RELEASE: FieldWord = field(
    "after_release",
    FieldKind::Choice(RELEASES),
    "falls_away",
    "What becomes of it when the rocket has left: stays or falls_away, as guides do that open around the body and \
        drop; their weight and drag are gone then.",
)
.or("stays");
const RELEASES: &[ChoiceWord] = &[
    word("stays", "it's part of the rocket"),
    word("falls_away", "it drops off at the end of the rod or rail, and flies no further"),
];
const CARRIES: FieldWord = field(
    "carries",
    FieldKind::References(Kind::Piece),
    "[nose]",
    "The nose, tubes and tapers that come down under it by themselves, apart from the rest, with all that is in them.",
)
.or("all of the rocket that no other one carries");

const ENDS: &[ChoiceWord] = &[word("capped", "with a cap or a flag on it"), word("open", "bare")];

const TOP: &[&str] = &[""];
const AIRFRAME: &[&str] = &["airframe"];
const STAGES: &[&str] = &["airframe", "booster"];
const IN_BODY: &[&str] = &["nose", "tube", "taper", "coupler"];
const ON_BODY: &[&str] = &["tube", "taper"];

/// Every block of the language.
pub static BLOCKS: &[BlockWord] = &[
    BlockWord {
        word: "design",
        naming: Naming::Title,
        inside: TOP,
        doc: "What the design is called and who made it.",
        fields: &[
            field("builder", FieldKind::Text, "\"Fen Edge Flyers\"", "Who built it.").hardly_matters(),
            field("note", FieldKind::Text, "\"first rocket after the kit\"", "Anything the reader should know.")
                .hardly_matters(),
        ],
        example: "design \"Reed Heron\" {\n  builder: \"Fen Edge Flyers\"\n}",
    },
    BlockWord {
        word: "airframe",
        naming: Naming::Nothing,
        inside: TOP,
        doc: "The rocket, from tip to tail in the order of the page: a nose, then tubes and tapers, each beginning \
            where the one before ends.",
        fields: &[DRAG_FACTOR],
        example: "airframe {\n  nose { shape: ogive; length: 80 mm; base: 25 mm; material: balsa }\n  tube { length: \
            250 mm; outer: 25 mm; inner: 24 mm; material: kraft_paper }\n}",
    },
    BlockWord {
        word: "booster",
        naming: Naming::Nothing,
        inside: TOP,
        doc: "The lower of two stages, behind the airframe: tubes and tapers in the order of the page. Its motor \
            burns first; at burnout it falls away and the upper stage's motor lights. A coupler at its front joins \
            the two.",
        fields: &[],
        example: "booster {\n  tube lower { length: 160 mm; outer: 24.8 mm; inner: 24 mm; material: kraft_paper\n    \
            mount { bore: 18 mm; outer: 18.8 mm; length: 70 mm; material: kraft_paper }\n  }\n}",
    },
    BlockWord {
        word: "nose",
        naming: Naming::Optional,
        inside: AIRFRAME,
        doc: "The nose cone, solid unless it has a wall.",
        fields: &[
            field("shape", FieldKind::Choice(SHAPES), "ogive", "Its shape.").needed(),
            quantity("length", D::LENGTH, "120 mm", "Length from the tip to the base, without the shoulder.").needed(),
            quantity("base", D::LENGTH, "41.6 mm", "Diameter at the base.").needed(),
            quantity(
                "wall",
                D::LENGTH,
                "1.5 mm",
                "Thickness of the wall, square to the surface. Leave it out for a \
                solid nose.",
            ),
            MATERIAL,
            SURFACE,
            MASS,
            BALANCE,
        ],
        example: "nose { shape: ogive; length: 120 mm; base: 41.6 mm; wall: 1.5 mm; material: polystyrene }",
    },
    BlockWord {
        word: "shoulder",
        naming: Naming::Optional,
        inside: &["nose", "taper"],
        doc: "The part that slides into the tube behind.",
        fields: &[
            LENGTH,
            quantity("outer", D::LENGTH, "40.2 mm", "Outer diameter.").needed(),
            quantity("wall", D::LENGTH, "1.5 mm", "Thickness of the wall. Leave it out for a solid shoulder."),
            MATERIAL.or("that of the part it belongs to"),
            MASS,
            BALANCE,
        ],
        example: "shoulder { length: 25 mm; outer: 40.2 mm; wall: 1.5 mm }",
    },
    BlockWord {
        word: "tube",
        naming: Naming::Optional,
        inside: STAGES,
        doc: "A body tube.",
        fields: &[
            LENGTH,
            quantity("outer", D::LENGTH, "41.6 mm", "Outer diameter.").needed(),
            quantity("inner", D::LENGTH, "40.4 mm", "Inner diameter.").needed(),
            MATERIAL,
            SURFACE,
            MASS,
            BALANCE,
        ],
        example: "tube body { length: 430 mm; outer: 41.6 mm; inner: 40.4 mm; material: kraft_paper }",
    },
    BlockWord {
        word: "taper",
        naming: Naming::Optional,
        inside: STAGES,
        doc: "A change of diameter: a flare towards the back, or a boat-tail.",
        fields: &[
            field("shape", FieldKind::Choice(TAPERS), "straight", "How the diameter runs: straight or ogive.")
                .or("straight"),
            LENGTH,
            quantity("front", D::LENGTH, "41.6 mm", "Outer diameter at the front.").needed(),
            quantity("back", D::LENGTH, "30 mm", "Outer diameter at the back.").needed(),
            quantity(
                "wall",
                D::LENGTH,
                "1.5 mm",
                "Thickness of the wall, square to the surface. Leave it out for a \
                solid taper.",
            ),
            MATERIAL,
            SURFACE,
            MASS,
            BALANCE,
        ],
        example: "taper { length: 40 mm; front: 41.6 mm; back: 30 mm; wall: 1.5 mm; material: polystyrene }",
    },
    BlockWord {
        word: "fins",
        naming: Naming::Optional,
        inside: ON_BODY,
        doc: "A set of equal flat fins, spaced evenly around the body: trapezoids, half ellipses, or any outline.",
        fields: &[
            field("count", FieldKind::Count, "3", "How many fins the set has.").between(1.0, 12.0).needed(),
            field(
                "plan",
                FieldKind::Choice(PLANS),
                "ellipse",
                "The shape of a fin: trapezoid or ellipse. An \
                `outline` needs none.",
            )
            .or("trapezoid"),
            quantity(
                "root",
                D::LENGTH,
                "70 mm",
                "Length of the edge on the body. Needed, unless an `outline` says it.",
            ),
            quantity(
                "tip",
                D::LENGTH,
                "40 mm",
                "Length of a trapezoid's outer edge, needed for one; 0 mm for a \
                pointed fin.",
            )
            .or_zero(),
            quantity(
                "span",
                D::LENGTH,
                "48 mm",
                "How far the fin stands out from the body. Needed, unless an \
                `outline` says it.",
            ),
            quantity(
                "sweep",
                D::LENGTH,
                "38 mm",
                "How far behind the root's front the tip's front lies, needed for a \
                trapezoid; 0 mm for a front edge square to the body, negative for a fin that leans forward.",
            )
            .any(),
            field(
                "outline",
                FieldKind::Curve(D::LENGTH, D::LENGTH),
                "[0 mm: 0 mm, 40 mm: 30 mm, 70 mm: 45 mm, 95 mm: 45 mm, 100 mm: 0 mm]",
                "The corners of any other fin, each how far back and how far out, from the root's front around to its \
                    back.",
            ),
            quantity(
                "fillet",
                D::LENGTH,
                "4 mm",
                "Radius of the epoxy fillets along the roots, both sides of each \
                fin.",
            ),
            quantity("tab_length", D::LENGTH, "50 mm", "Length of a tab through the wall, in the middle of the root."),
            quantity("tab_depth", D::LENGTH, "12 mm", "How deep that tab reaches."),
            quantity("thickness", D::LENGTH, "2.4 mm", "Thickness of the plate.").needed(),
            field("leading", FieldKind::Choice(EDGES), "rounded", "The front edge: blunt, rounded or sharp.")
                .or("blunt")
                .hardly_matters(),
            field("trailing", FieldKind::Choice(EDGES), "blunt", "The back edge: blunt, rounded or sharp.")
                .or("blunt")
                .hardly_matters(),
            MATERIAL,
            SURFACE,
            AT,
            CLOCK.or("0 deg"),
            MASS,
            BALANCE,
        ],
        example: "fins main {\n  count: 3\n  root: 70 mm; tip: 40 mm; span: 48 mm; sweep: 38 mm\n  thickness: 2.4 mm; \
            material: balsa\n  at: 3 mm from back\n}",
    },
    BlockWord {
        word: "mount",
        naming: Naming::Optional,
        inside: ON_BODY,
        doc: "The tube that holds the motor.",
        fields: &[
            quantity("bore", D::LENGTH, "24 mm", "Inner diameter: the motor that fits.").needed(),
            quantity("outer", D::LENGTH, "25.4 mm", "Outer diameter.").needed(),
            LENGTH,
            quantity("sticks_out", D::LENGTH, "6 mm", "How far the motor stands out at the back of the mount.")
                .or_zero()
                .or("0 mm"),
            field(
                "motors",
                FieldKind::Count,
                "3",
                "How many motors it holds side by side: a cluster, each in a tube \
                of this bore.",
            )
            .between(1.0, 19.0)
            .or("1"),
            quantity(
                "circle",
                D::LENGTH,
                "44 mm",
                "Diameter of the circle on which the middles of a cluster's motors \
                lie.",
            )
            .or("a point, which hardly matters but for roll"),
            AT.or("0 mm from back"),
            MATERIAL,
            MASS,
            BALANCE,
        ],
        example: "mount engine { bore: 24 mm; outer: 25.4 mm; length: 95 mm; sticks_out: 6 mm; material: kraft_paper }",
    },
    BlockWord {
        word: "rings",
        naming: Naming::Optional,
        inside: &["mount"],
        doc: "Rings that hold the mount in the middle of the tube, spread evenly along it, the outer two flush with \
            its ends.",
        fields: &[
            field("count", FieldKind::Count, "2", "How many rings.").between(1.0, 20.0).needed(),
            quantity("thickness", D::LENGTH, "3 mm", "Thickness of one ring.").needed(),
            MATERIAL,
            MASS,
            BALANCE,
        ],
        example: "rings { count: 2; thickness: 3 mm; material: balsa }",
    },
    BlockWord {
        word: "tube_fins",
        naming: Naming::Optional,
        inside: &["tube"],
        doc: "A set of short tubes around the body that work as fins.",
        fields: &[
            field("count", FieldKind::Count, "6", "How many tubes.").between(3.0, 12.0).needed(),
            LENGTH,
            quantity("outer", D::LENGTH, "24.8 mm", "Outer diameter of one.").needed(),
            quantity("inner", D::LENGTH, "24 mm", "Inner diameter of one.").needed(),
            MATERIAL,
            SURFACE,
            AT,
            MASS,
            BALANCE,
        ],
        example: "tube_fins { count: 6; length: 60 mm; outer: 24.8 mm; inner: 24 mm; material: kraft_paper; at: 0 mm \
            from back }",
    },
    BlockWord {
        word: "ring_fin",
        naming: Naming::Optional,
        inside: &["tube"],
        doc: "A ring around the body that works as a fin. The fins or struts that carry it are parts of their own.",
        fields: &[
            LENGTH,
            quantity("outer", D::LENGTH, "90 mm", "Outer diameter of the ring.").needed(),
            quantity("inner", D::LENGTH, "88.5 mm", "Inner diameter of the ring.").needed(),
            MATERIAL,
            SURFACE,
            AT,
            MASS,
            BALANCE,
        ],
        example: "ring_fin { length: 40 mm; outer: 90 mm; inner: 88.5 mm; material: kraft_paper; at: 0 mm from back }",
    },
    BlockWord {
        word: "thrust_ring",
        naming: Naming::Optional,
        inside: &["mount"],
        doc: "A ring glued into the mount that takes the motor's thrust, at the front unless it says otherwise.",
        fields: &[
            LENGTH,
            quantity("inner", D::LENGTH, "14 mm", "Inner diameter; outside it fills the mount's bore.").needed(),
            AT.or("0 mm from front"),
            MATERIAL,
            MASS,
            BALANCE,
        ],
        example: "thrust_ring { length: 6 mm; inner: 14 mm; material: cardboard }",
    },
    BlockWord {
        word: "hook",
        naming: Naming::Optional,
        inside: &["mount"],
        doc: "The spring hook that keeps the motor in, along the mount unless it says otherwise.",
        fields: &[
            quantity("length", D::LENGTH, "75 mm", "Length.").needed(),
            quantity("mass", D::MASS, "1.5 g", "Its mass.").needed(),
            AT.or("its back end at the mount's back"),
            BALANCE,
        ],
        example: "hook { length: 75 mm; mass: 1.5 g }",
    },
    BlockWord {
        word: "coupler",
        naming: Naming::Optional,
        inside: &["tube"],
        doc: "A tube inside the tube that joins it to the next one.",
        fields: &[
            LENGTH,
            quantity("outer", D::LENGTH, "40.2 mm", "Outer diameter.").needed(),
            quantity("inner", D::LENGTH, "38 mm", "Inner diameter.").needed(),
            AT,
            MATERIAL,
            MASS,
            BALANCE,
        ],
        example: "coupler { length: 80 mm; outer: 40.2 mm; inner: 38 mm; material: kraft_paper; at: -40 mm from back }",
    },
    BlockWord {
        word: "bulkhead",
        naming: Naming::Optional,
        inside: IN_BODY,
        doc: "A solid disc across the tube.",
        fields: &[
            quantity("outer", D::LENGTH, "40.2 mm", "Diameter.").needed(),
            quantity("thickness", D::LENGTH, "5 mm", "Thickness.").needed(),
            AT,
            MATERIAL,
            MASS,
            BALANCE,
        ],
        example: "bulkhead { outer: 40.2 mm; thickness: 5 mm; material: plywood; at: 120 mm from front }",
    },
    BlockWord {
        word: "ballast",
        naming: Naming::Optional,
        inside: IN_BODY,
        doc: "A small heavy thing, placed by its middle.",
        fields: &[
            quantity("mass", D::MASS, "6 g", "Its mass.").needed(),
            quantity(
                "off_axis",
                D::LENGTH,
                "12 mm",
                "How far its middle lies from the rocket's axis; it matters for \
                roll and swing.",
            )
            .or_zero()
            .or("0 mm"),
            AT,
        ],
        example: "ballast { mass: 6 g; at: 20 mm from back }",
    },
    BlockWord {
        word: "load",
        naming: Naming::Optional,
        inside: IN_BODY,
        doc: "Anything else that is carried, as a mass spread over a length: electronics, a camera, padding.",
        fields: &[
            quantity("mass", D::MASS, "85 g", "Its mass.").needed(),
            quantity("length", D::LENGTH, "90 mm", "The length that it's spread over.").or("a point"),
            quantity(
                "off_axis",
                D::LENGTH,
                "12 mm",
                "How far its middle lies from the rocket's axis; it matters for \
                roll and swing.",
            )
            .or_zero()
            .or("0 mm"),
            AT,
            BALANCE,
        ],
        example: "load { mass: 85 g; length: 90 mm; at: 100 mm from front }",
    },
    BlockWord {
        word: "parachute",
        naming: Naming::Optional,
        inside: IN_BODY,
        doc: "A parachute, packed, placed by its middle.",
        fields: &[
            quantity("diameter", D::LENGTH, "450 mm", "Diameter of the cloth laid flat.").needed(),
            quantity("mass", D::MASS, "14 g", "Mass with its lines.").needed(),
            AT,
            quantity("drag", D::NUMBER, "0.8", "Drag coefficient on the area of the cloth laid flat.")
                .or("0.75")
                .hardly_matters(),
            OPENS,
            CARRIES,
        ],
        example: "parachute { diameter: 450 mm; mass: 14 g; at: 60 mm from front; drag: 0.8 }",
    },
    BlockWord {
        word: "streamer",
        naming: Naming::Optional,
        inside: IN_BODY,
        doc: "A streamer, packed, placed by its middle.",
        fields: &[
            quantity("length", D::LENGTH, "900 mm", "Length.").needed(),
            quantity("width", D::LENGTH, "90 mm", "Width.").needed(),
            quantity("mass", D::MASS, "6 g", "Its mass.").needed(),
            AT,
            quantity("drag", D::NUMBER, "0.3", "Drag coefficient on the area of one side.").or("0.3").hardly_matters(),
            OPENS,
            CARRIES,
        ],
        example: "streamer { length: 900 mm; width: 90 mm; mass: 6 g; at: 60 mm from front }",
    },
    BlockWord {
        word: "cord",
        naming: Naming::Optional,
        inside: IN_BODY,
        doc: "The shock cord, packed, placed by its middle.",
        fields: &[
            quantity("length", D::LENGTH, "1.2 m", "Length."),
            quantity("mass", D::MASS, "5 g", "Its mass.").needed(),
            quantity("bears", D::FORCE, "400 N", "The pull at which it breaks, knots and anchor included.")
                .hardly_matters(),
            AT,
        ],
        example: "cord { length: 1.2 m; mass: 5 g; at: 90 mm from front }",
    },
    BlockWord {
        word: "lug",
        naming: Naming::Optional,
        inside: ON_BODY,
        doc: "A small tube on the outside that slides on a rod, placed by its middle.",
        fields: &[
            quantity("bore", D::LENGTH, "4.6 mm", "Inner diameter: a little more than the rod.").needed(),
            quantity("length", D::LENGTH, "30 mm", "Length.").needed(),
            quantity("wall", D::LENGTH, "0.4 mm", "Thickness of the wall.").needed(),
            quantity("standoff", D::LENGTH, "8 mm", "How far its outside is held off the body.").or_zero().or("0 mm"),
            quantity("bears", D::FORCE, "40 N", "The pull that its bond or screw bears, as tested on a spare piece.")
                .or("a conservative guess by its size, common practice"),
            AT,
            CLOCK,
            AFTER_RELEASE,
            MATERIAL.or("kraft_paper"),
            MASS,
            BALANCE,
        ],
        example: "lug { bore: 4.6 mm; length: 30 mm; wall: 0.4 mm; at: 15 mm ahead of balance; clock: 60 deg }",
    },
    BlockWord {
        word: "button",
        naming: Naming::Optional,
        inside: ON_BODY,
        doc: "A button screwed to the body that slides in a rail's slot, placed by its middle.",
        fields: &[
            quantity("profile", D::LENGTH, "20 mm", "Width of the rail section that it fits.").needed(),
            quantity("standoff", D::LENGTH, "2 mm", "How far its foot is held off the body.").or_zero().or("0 mm"),
            quantity("screw", D::LENGTH, "8 mm", "How far its screw and nut reach inward from the body's outside."),
            quantity("bears", D::FORCE, "40 N", "The pull that its bond or screw bears, as tested on a spare piece.")
                .or("a conservative guess by its size, common practice"),
            AT,
            CLOCK,
            AFTER_RELEASE,
            MASS.or("by the section's width, common practice"),
        ],
        example: "button aft { profile: 20 mm; at: 40 mm from back; clock: 180 deg }",
    },
    BlockWord {
        word: "rail_guide",
        naming: Naming::Optional,
        inside: ON_BODY,
        doc: "A shoe that is stuck to the body and slides in a rail's slot, placed by its middle.",
        fields: &[
            quantity("profile", D::LENGTH, "1.5 in", "Width of the rail section that it fits.").needed(),
            quantity("length", D::LENGTH, "60 mm", "Length.").needed(),
            quantity("standoff", D::LENGTH, "4 mm", "How far its foot is held off the body.").or_zero().or("0 mm"),
            quantity("bears", D::FORCE, "40 N", "The pull that its bond or screw bears, as tested on a spare piece.")
                .or("a conservative guess by its size, common practice"),
            AT,
            CLOCK,
            AFTER_RELEASE,
            MASS.or("by the section's width, common practice"),
        ],
        example: "rail_guide { profile: 1.5 in; length: 60 mm; mass: 12 g; at: 80 mm from back; clock: 45 deg }",
    },
    BlockWord {
        word: "material",
        naming: Naming::Required,
        inside: TOP,
        doc: "A material by its density, and its stiffness where a rod or rail is made of it.",
        fields: &[
            quantity("density", D::DENSITY, "480 kg/m3", "Mass per volume.").needed(),
            quantity("stiffness", D::PRESSURE, "200 GPa", "Young's modulus, for rods and rails."),
            quantity("shear", D::PRESSURE, "0.17 GPa", "Shear modulus, for fins that might flutter."),
        ],
        example: "material pine { density: 480 kg/m3 ± 8 % }",
    },
    BlockWord {
        word: "section",
        naming: Naming::Required,
        inside: TOP,
        doc: "A rail's section: a square profile with a slot along each side.",
        fields: &[
            quantity("width", D::LENGTH, "20 mm", "Width over all.").needed(),
            quantity("mouth", D::LENGTH, "5.5 mm", "Width of the slot's mouth.").needed(),
            quantity("second_moment", D::SECOND_MOMENT, "6000 mm4", "Second moment of area against bending."),
            quantity("button_mass", D::MASS, "1.2 g", "Mass of a usual button for it, with its screw."),
            quantity("guide_mass", D::LINE_DENSITY, "60 g/m", "Mass per length of a usual stick-on rail guide for it."),
            MATERIAL,
        ],
        example: "section mini { width: 20 mm; mouth: 5.5 mm; second_moment: 6000 mm4; material: aluminium }",
    },
    BlockWord {
        word: "motor",
        naming: Naming::Required,
        inside: TOP,
        doc: "A motor with its thrust curve. Copy the numbers from its certified data.",
        fields: &[
            field(
                "code",
                FieldKind::Text,
                "\"D9-5\"",
                "The code on its label: class letter, average thrust in \
                newtons, delay in seconds.",
            )
            .hardly_matters(),
            quantity("diameter", D::LENGTH, "24 mm", "Diameter.").needed(),
            quantity("length", D::LENGTH, "70 mm", "Length.").needed(),
            quantity("mass", D::MASS, "43 g", "Mass before it burns, propellant included.").needed(),
            quantity("propellant", D::MASS, "21 g", "Mass of the propellant.").needed(),
            quantity("delay", D::TIME, "5 s", "Time from burnout to ejection.").or_zero().hardly_matters(),
            field(
                "curve",
                FieldKind::Curve(D::TIME, D::FORCE),
                "[0 s: 0 N, 0.1 s: 14 N, 1.8 s: 0 N]",
                "Thrust over time, joined by straight lines.",
            )
            .needed(),
            field(
                "trace",
                FieldKind::Recording(D::TIME, D::FORCE),
                "file \"stand.csv\"",
                "Instead of a curve, what a test stand recorded: the load before and after the burn is taken for its \
                    zero, the time at which thrust rises above the noise for ignition.",
            ),
            quantity(
                "thrust_factor",
                D::NUMBER,
                "0.96 ± 0.03",
                "What the thrust is multiplied by, as flights have shown: see `flown`.",
            )
            .between(0.5, 1.5)
            .or("1"),
        ],
        example: "motor d9 {\n  code: \"D9-5\"; diameter: 24 mm; length: 70 mm\n  mass: 43 g; propellant: 21 g; \
            delay: 5 s\n  curve: [0 s: 0 N, 0.2 s: 22 N, 0.6 s: 9 N, 1.9 s: 0 N]\n}",
    },
    BlockWord {
        word: "pad",
        naming: Naming::Required,
        inside: TOP,
        doc: "A launch pad with its rod or rail.",
        fields: &[
            quantity(
                "stop",
                D::LENGTH,
                "60 mm",
                "How far above the foot of the rod or rail the rocket's aft end \
                rests.",
            )
            .or_zero()
            .or("0 mm"),
            field("leans", FieldKind::Choice(LEANS), "with_wind", "Which way it leans, where it does.").or("into_wind"),
            quantity("tilt", D::ANGLE, "3 deg", "How far it leans from the vertical.")
                .between(0.0, std::f64::consts::FRAC_PI_3)
                .or("0 deg"),
            quantity("friction", D::NUMBER, "0.3", "Friction coefficient between the guides and the rod or rail.")
                .or_zero()
                .or("0.3 on a rod, 0.25 in a rail (common practice)"),
            quantity("foot", D::LENGTH, "300 mm", "How high the foot of the rod or rail stands over the ground.")
                .or_zero(),
            quantity("mass", D::MASS, "6 kg", "What the pad weighs, rod or rail and all, without the rocket.")
                .hardly_matters(),
            quantity(
                "stance",
                D::LENGTH,
                "250 mm",
                "How far from under the rod or rail the edge lies over which the pad would tip.",
            )
            .hardly_matters(),
            quantity(
                "staked",
                D::FORCE,
                "60 N",
                "The pull that the stakes of one side bear together; 0 N where it stands free.",
            )
            .or_zero()
            .hardly_matters()
            .or("0 N"),
            quantity(
                "yields",
                D::ANGLE,
                "0.2 deg",
                "How far the foot turns under a moment of 1 N m: pull the tip of a rod sideways at 1 m up with 1 N, \
                    and see.",
            )
            .or_zero()
            .or("0 deg: a stiff foot"),
            field(
                "end",
                FieldKind::Choice(ENDS),
                "capped",
                "Whether the end of the rod is capped while nobody \
                launches: capped or open.",
            )
            .or("open"),
        ],
        example: "pad club_rod { rod { diameter: 4 mm; length: 1.2 m; material: steel }; stop: 60 mm; tilt: 3 deg }",
    },
    BlockWord {
        word: "rod",
        naming: Naming::Nothing,
        inside: &["pad"],
        doc: "A round rod.",
        fields: &[
            quantity("diameter", D::LENGTH, "4 mm", "Diameter.").needed(),
            quantity("length", D::LENGTH, "1.2 m", "Length from its foot to its tip.").needed(),
            quantity("joint", D::LENGTH, "0.9 m", "How high above its foot its two pieces join, where it has two.")
                .or("half its length, where something else is said of a joint"),
            quantity("joint_play", D::ANGLE, "0.3 deg", "How far the upper piece can lean in the joint.")
                .or_zero()
                .or("0.25 deg where there is a joint (common practice)"),
            quantity(
                "joint_step",
                D::LENGTH,
                "0.2 mm",
                "How much wider the joint is than the rod: a sleeve, or a step that isn't filed off.",
            )
            .or_zero()
            .or("0 mm"),
            MATERIAL.or("steel"),
        ],
        example: "rod { diameter: 4 mm; length: 1.2 m; material: steel }",
    },
    BlockWord {
        word: "rail",
        naming: Naming::Nothing,
        inside: &["pad"],
        doc: "A rail with a slot.",
        fields: &[
            field(
                "slot",
                FieldKind::Reference(Kind::Section),
                "mini",
                "Its section: a built-in one or one that the \
                file defines.",
            )
            .needed(),
            quantity("length", D::LENGTH, "1.8 m", "Length from its foot to its tip.").needed(),
        ],
        example: "rail { slot: mini; length: 1.8 m }",
    },
    BlockWord {
        word: "tower",
        naming: Naming::Nothing,
        inside: &["pad"],
        doc: "Rails around the body, between which it slides without any lug or button.",
        fields: &[
            field("rails", FieldKind::Count, "3", "How many rails stand around it.").between(3.0, 6.0).needed(),
            quantity("bore", D::LENGTH, "42 mm", "Diameter of the circle that the rails leave free.").needed(),
            quantity("length", D::LENGTH, "1.5 m", "Length from its foot to its tip.").needed(),
            quantity("thickness", D::LENGTH, "6 mm", "How wide a rail is, seen from above.").or("6 mm"),
        ],
        example: "tower { rails: 3; bore: 42 mm; length: 1.5 m }",
    },
    BlockWord {
        word: "site",
        naming: Naming::Required,
        inside: TOP,
        doc: "The field and its weather.",
        fields: &[
            quantity("elevation", D::LENGTH, "4 m", "Height above sea level.").any().between(-500.0, 9000.0).or("0 m"),
            quantity("temperature", D::TEMPERATURE, "16 °C", "Air temperature on the ground.")
                .between(198.15, 333.15)
                .or("the standard atmosphere's"),
            quantity("pressure", D::PRESSURE, "1013 hPa", "Air pressure on the field, not reduced to sea level.")
                .between(30_000.0, 110_000.0)
                .or("the standard atmosphere's"),
            field(
                "wind",
                FieldKind::AtHeight(D::SPEED),
                "4 m/s at 2 m",
                "Steady wind, with the height above ground \
                at which it's read: 2 m where none is said, about what a meter in the hand reads; masts stand 10 m \
                up. Gusts are read at the same height.",
            )
            .or_zero(),
            quantity("gust", D::SPEED, "6 m/s", "Wind in gusts.").or_zero(),
            quantity("across", D::LENGTH, "150 m", "The field's smallest dimension, free of trees, roads and wires."),
            quantity("people", D::LENGTH, "10 m", "How far from the pad people stand at launch."),
        ],
        example: "site fen { elevation: 4 m; temperature: 16 °C; wind: 4 m/s; gust: 6 m/s }",
    },
    BlockWord {
        word: "flight",
        naming: Naming::Required,
        inside: TOP,
        doc: "A flight to check: this motor, from this pad, held by these guides, at this site.",
        fields: &[
            field("motor", FieldKind::Reference(Kind::Motor), "d9", "The motor that is in.").needed(),
            field(
                "booster_motor",
                FieldKind::Reference(Kind::Motor),
                "c6",
                "The motor of the lower stage, where \
                there is one; it burns first.",
            ),
            field("pad", FieldKind::Reference(Kind::Pad), "club_rod", "The pad.").needed(),
            field(
                "guided_by",
                FieldKind::References(Kind::Guide),
                "[rear, front]",
                "The lugs, buttons or rail guides \
                that run on it.",
            )
            .or("the guides that run on the pad, where they are one set"),
            field("site", FieldKind::Reference(Kind::Site), "fen", "The site.").or("sea level, standard air, no wind"),
        ],
        example: "flight rod_day { motor: d9; pad: club_rod; guided_by: [rear, front]; site: fen }",
    },
    BlockWord {
        word: "measured",
        naming: Naming::Optional,
        inside: TOP,
        doc: "What the bench says about the finished rocket, ready to fly.",
        fields: &[
            field("with", FieldKind::Reference(Kind::Motor), "d9", "The motor that was in."),
            quantity("mass", D::MASS, "148 g ± 1 g", "Mass on the scale."),
            field("balance", FieldKind::Place, "352 mm ± 3 mm from tip", "Where it balances."),
        ],
        example: "measured { with: d9; mass: 148 g ± 1 g; balance: 352 mm ± 3 mm from tip }",
    },
    BlockWord {
        word: "flown",
        naming: Naming::Optional,
        inside: TOP,
        doc: "What a flight did, as measured: it's compared with what was expected of it, and what would explain the \
            difference is told.",
        fields: &[
            field("flight", FieldKind::Reference(Kind::Flight), "rod_day", "The flight that was flown.").needed(),
            quantity(
                "exit_speed",
                D::SPEED,
                "12.6 m/s ± 0.4 m/s",
                "Speed when the last guide left, as a video against marks on the rod or rail shows it.",
            ),
            quantity(
                "height",
                D::LENGTH,
                "148 m ± 2 m",
                "Greatest height above the pad, by an altimeter or by angles.",
            ),
            quantity("time_to_top", D::TIME, "5.6 s ± 0.2 s", "Time from the first motion to the highest point."),
            field(
                "log",
                FieldKind::Recording(D::TIME, D::LENGTH),
                "file \"altimeter.csv\"",
                "An altimeter's record of time and height: the lift-off and the highest point are found in it.",
            ),
            quantity("mass", D::MASS, "149 g ± 1 g", "What it weighed on the pad that day, where it was weighed."),
            quantity("wind", D::SPEED, "3 m/s", "The wind at that flight, read at the site's height.")
                .or_zero()
                .or("the site's"),
        ],
        example: "flown { flight: rod_day; exit_speed: 12.6 m/s ± 0.4 m/s; height: 148 m ± 2 m }",
    },
];
