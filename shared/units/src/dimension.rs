//! What kind of quantity a number is.

/// Exponents of the base quantities. Angle and calibre are kept apart from plain numbers, since mixing them up is a
/// mistake that people make (`tilt: 3` for 3 degrees or 3 percent).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Dimension {
    /// Length, metre.
    pub length: i8,
    /// Mass, kilogram.
    pub mass: i8,
    /// Time, second.
    pub time: i8,
    /// Temperature, kelvin.
    pub temperature: i8,
    /// Plane angle, radian.
    pub angle: i8,
    /// Calibres: multiples of the body's reference diameter.
    pub calibre: i8,
}

macro_rules! dimensions {
    ($($(#[$doc:meta])* $name:ident = $l:literal $m:literal $t:literal $k:literal $a:literal $c:literal, $phrase:literal, $units:literal;)*) => {
        impl Dimension {
            $($(#[$doc])* pub const $name: Dimension = Dimension { length: $l, mass: $m, time: $t, temperature: $k, angle: $a, calibre: $c };)*

            /// The dimension in plain words with its article, such as "a length".
            pub fn phrase(self) -> String {
                match self {
                    $(Dimension::$name => $phrase.to_string(),)*
                    other => format!("a quantity in {}", other.base_units()),
                }
            }

            /// Units that fit, as a reader would list them; empty where none has a name.
            pub fn fitting_units(self) -> &'static str {
                match self {
                    $(Dimension::$name => $units,)*
                    _ => "",
                }
            }
        }
    };
}

dimensions! {
    /// A plain number.
    NUMBER = 0 0 0 0 0 0, "a plain number", "";
    /// Length, m.
    LENGTH = 1 0 0 0 0 0, "a length", "mm, cm, m, in, ft";
    /// Area, m2.
    AREA = 2 0 0 0 0 0, "an area", "mm2, cm2, m2, in2";
    /// Volume, m3.
    VOLUME = 3 0 0 0 0 0, "a volume", "mm3, cm3, m3, in3";
    /// Second moment of area, m4.
    SECOND_MOMENT = 4 0 0 0 0 0, "a second moment of area", "mm4, in4";
    /// Mass, kg.
    MASS = 0 1 0 0 0 0, "a mass", "g, kg, oz, lb";
    /// Time, s.
    TIME = 0 0 1 0 0 0, "a time", "s, ms";
    /// Absolute temperature, K.
    TEMPERATURE = 0 0 0 1 0 0, "a temperature", "°C, °F, K";
    /// Plane angle, rad.
    ANGLE = 0 0 0 0 1 0, "an angle", "deg, rad";
    /// Multiples of the reference diameter.
    CALIBRES = 0 0 0 0 0 1, "a number of calibres", "cal";
    /// Force, N.
    FORCE = 1 1 -2 0 0 0, "a force", "N, kN, lbf, ozf";
    /// Impulse, N s.
    IMPULSE = 1 1 -1 0 0 0, "an impulse", "N.s, lbf.s";
    /// Speed, m/s.
    SPEED = 1 0 -1 0 0 0, "a speed", "m/s, km/h, mph, ft/s, kt";
    /// Acceleration, m/s2.
    ACCELERATION = 1 0 -2 0 0 0, "an acceleration", "m/s2, ft/s2";
    /// Density, kg/m3.
    DENSITY = -3 1 0 0 0 0, "a density", "kg/m3, g/cm3, lb/ft3";
    /// Mass per area, kg/m2.
    AREAL_DENSITY = -2 1 0 0 0 0, "a mass per area", "g/m2, kg/m2";
    /// Mass per length, kg/m.
    LINE_DENSITY = -1 1 0 0 0 0, "a mass per length", "g/m, kg/m";
    /// Pressure or stiffness modulus, Pa.
    PRESSURE = -1 1 -2 0 0 0, "a pressure", "Pa, hPa, kPa, MPa, GPa, psi, inHg";
    /// Energy or moment, J.
    ENERGY = 2 1 -2 0 0 0, "an energy", "J";
    /// Moment of inertia, kg m2.
    INERTIA = 2 1 0 0 0 0, "a moment of inertia", "kg.m2, g.cm2";
}

impl Dimension {
    /// The dimension of a product.
    pub fn times(self, o: Dimension) -> Dimension {
        self.combine(o, 1)
    }

    /// The dimension of a quotient.
    pub fn over(self, o: Dimension) -> Dimension {
        self.combine(o, -1)
    }

    /// The dimension of the square root, where it has one.
    pub fn root(self) -> Option<Dimension> {
        let half = |e: i8| (e % 2 == 0).then_some(e / 2);
        Some(Dimension {
            length: half(self.length)?,
            mass: half(self.mass)?,
            time: half(self.time)?,
            temperature: half(self.temperature)?,
            angle: half(self.angle)?,
            calibre: half(self.calibre)?,
        })
    }

    /// The dimension raised to a small whole power.
    pub fn power(self, n: i8) -> Dimension {
        let by = |e: i8| e.saturating_mul(n);
        Dimension {
            length: by(self.length),
            mass: by(self.mass),
            time: by(self.time),
            temperature: by(self.temperature),
            angle: by(self.angle),
            calibre: by(self.calibre),
        }
    }

    fn combine(self, o: Dimension, sign: i8) -> Dimension {
        let with = |a: i8, b: i8| a.saturating_add(b.saturating_mul(sign));
        Dimension {
            length: with(self.length, o.length),
            mass: with(self.mass, o.mass),
            time: with(self.time, o.time),
            temperature: with(self.temperature, o.temperature),
            angle: with(self.angle, o.angle),
            calibre: with(self.calibre, o.calibre),
        }
    }

    /// The dimension spelled in base units, such as `m2.kg.s-2`.
    pub fn base_units(self) -> String {
        let parts = [
            ("m", self.length),
            ("kg", self.mass),
            ("s", self.time),
            ("K", self.temperature),
            ("rad", self.angle),
            ("cal", self.calibre),
        ];
        let spelled: Vec<String> = parts
            .iter()
            .filter(|(_, e)| *e != 0)
            .map(|(u, e)| if *e == 1 { (*u).to_string() } else { format!("{u}{e}") })
            .collect();
        if spelled.is_empty() {
            "plain numbers".to_string()
        } else {
            spelled.join(".")
        }
    }
}
