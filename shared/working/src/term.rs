//! An expression that knows its formula, the same with the values put in, and what it comes to: written once, so that
//! the three can't differ.

use crate::number::Number;
use std::ops::{Add, Div, Mul, Sub};

/// An expression over numbers as they are printed.
#[derive(Clone, Debug)]
pub struct Term {
    formula: String,
    values: String,
    value: f64,
    binds: Binds,
    number: Option<Number>,
}

/// How tightly an expression holds together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Binds {
    Sum,
    /// Bracketed before anything multiplies it: a / b·c would leave a reader in doubt.
    Quotient,
    Product,
    Whole,
}

impl Term {
    /// A known number under its symbol.
    pub fn known(symbol: &str, number: &Number) -> Term {
        let values = if number.value() < 0.0 { format!("({number})") } else { number.to_string() };
        let value = number.value();
        Term { formula: symbol.to_string(), values, value, binds: Binds::Whole, number: Some(number.clone()) }
    }

    /// A number that belongs to the formula itself.
    pub fn constant(value: f64) -> Term {
        let text = value.to_string();
        Term { formula: text.clone(), values: text, value, binds: Binds::Whole, number: None }
    }

    /// π.
    pub fn pi() -> Term {
        let text = "π".to_string();
        Term { formula: text.clone(), values: text, value: std::f64::consts::PI, binds: Binds::Whole, number: None }
    }

    /// The formula, in symbols.
    pub fn formula(&self) -> &str {
        &self.formula
    }

    /// The formula with the values put in.
    pub fn values(&self) -> &str {
        &self.values
    }

    /// What it comes to, not yet rounded.
    pub fn value(&self) -> f64 {
        self.value
    }

    /// The number, where it is a single known one.
    pub fn number(&self) -> Option<&Number> {
        self.number.as_ref()
    }

    /// A known number in a larger or smaller unit, its point moved by so many places.
    pub fn moved(&self, places: i32, unit: &'static str) -> Term {
        match &self.number {
            Some(number) => Term::known(&self.formula, &number.moved(places, unit)),
            None => self.clone(),
        }
    }

    /// The square root.
    pub fn sqrt(&self) -> Term {
        self.function("√", f64::sqrt)
    }

    /// The sine of an angle in degrees.
    pub fn sin(&self) -> Term {
        self.function("sin", |degrees| degrees.to_radians().sin())
    }

    /// The cosine of an angle in degrees.
    pub fn cos(&self) -> Term {
        self.function("cos", |degrees| degrees.to_radians().cos())
    }

    /// The angle in degrees with this tangent.
    pub fn atan(&self) -> Term {
        self.function("atan", |tangent| tangent.atan().to_degrees())
    }

    /// The second, third or fourth power.
    pub fn power(&self, exponent: i32) -> Term {
        let sign = match exponent {
            2 => "²",
            3 => "³",
            _ => "⁴",
        };
        let exponent = exponent.clamp(2, 4);
        let values = if self.values.contains(' ') && !is_bracketed(&self.values) {
            format!("({}){sign}", self.values)
        } else {
            format!("{}{sign}", self.values)
        };
        let formula = format!("{}{sign}", self.bracketed(Binds::Whole, |t| &t.formula));
        Term { formula, values, value: self.value.powi(exponent), binds: Binds::Whole, number: None }
    }

    fn function(&self, name: &str, of: fn(f64) -> f64) -> Term {
        let call =
            |inner: &str| if is_bracketed(inner) { format!("{name}{inner}") } else { format!("{name}({inner})") };
        Term {
            formula: call(&self.formula),
            values: call(&self.values),
            value: of(self.value),
            binds: Binds::Whole,
            number: None,
        }
    }

    fn bracketed(&self, least: Binds, text: impl Fn(&Term) -> &String) -> String {
        let text = text(self);
        if self.binds < least {
            format!("({text})")
        } else {
            text.clone()
        }
    }

    fn joined(&self, sign: Sign, other: &Term) -> Term {
        let (in_formula, in_values, binds, left, right) = match sign {
            Sign::Plus => (" + ", " + ", Binds::Sum, Binds::Sum, Binds::Sum),
            Sign::Minus => (" - ", " - ", Binds::Sum, Binds::Sum, Binds::Quotient),
            Sign::Times => ("·", " × ", Binds::Product, Binds::Product, Binds::Product),
            Sign::Over => (" / ", " / ", Binds::Quotient, Binds::Product, Binds::Whole),
        };
        let join = |by: &str, text: fn(&Term) -> &String| {
            format!("{}{by}{}", self.bracketed(left, text), other.bracketed(right, text))
        };
        let value = match sign {
            Sign::Plus => self.value + other.value,
            Sign::Minus => self.value - other.value,
            Sign::Times => self.value * other.value,
            Sign::Over => self.value / other.value,
        };
        let formula = join(in_formula, |t| &t.formula);
        Term { formula, values: join(in_values, |t| &t.values), value, binds, number: None }
    }
}

#[derive(Clone, Copy)]
enum Sign {
    Plus,
    Minus,
    Times,
    Over,
}

/// Whether a text is one pair of brackets with what is in it.
fn is_bracketed(text: &str) -> bool {
    let mut depth = 0;
    for (at, c) in text.char_indices() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return c == ')' && at + 1 == text.len();
        }
    }
    false
}

macro_rules! operators {
    ($($operator:ident $method:ident $sign:ident),*) => {$(
        impl $operator<&Term> for &Term {
            type Output = Term;
            fn $method(self, other: &Term) -> Term {
                self.joined(Sign::$sign, other)
            }
        }
        impl $operator<Term> for &Term {
            type Output = Term;
            fn $method(self, other: Term) -> Term {
                self.joined(Sign::$sign, &other)
            }
        }
        impl $operator<&Term> for Term {
            type Output = Term;
            fn $method(self, other: &Term) -> Term {
                self.joined(Sign::$sign, other)
            }
        }
        impl $operator<Term> for Term {
            type Output = Term;
            fn $method(self, other: Term) -> Term {
                self.joined(Sign::$sign, &other)
            }
        }
        impl $operator<f64> for &Term {
            type Output = Term;
            fn $method(self, other: f64) -> Term {
                self.joined(Sign::$sign, &Term::constant(other))
            }
        }
        impl $operator<f64> for Term {
            type Output = Term;
            fn $method(self, other: f64) -> Term {
                self.joined(Sign::$sign, &Term::constant(other))
            }
        }
        impl $operator<&Term> for f64 {
            type Output = Term;
            fn $method(self, other: &Term) -> Term {
                Term::constant(self).joined(Sign::$sign, other)
            }
        }
        impl $operator<Term> for f64 {
            type Output = Term;
            fn $method(self, other: Term) -> Term {
                Term::constant(self).joined(Sign::$sign, &other)
            }
        }
    )*};
}

operators!(Add add Plus, Sub sub Minus, Mul mul Times, Div div Over);
