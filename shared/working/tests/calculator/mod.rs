//! A calculator of its own: it reads what a page prints and knows nothing of how the page came about. Numbers carry
//! their units, so that it also tells where a page adds lengths to forces or takes millimetres for metres.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::HashMap;

/// A value with the powers of kg, m, s and K in its unit, in halves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    pub number: f64,
    pub powers: [i32; 4],
}

/// Values by symbol.
pub type Known = HashMap<String, Value>;

/// What a pocket calculator shows for an expression: units are not looked at.
pub fn plain(expression: &str) -> f64 {
    Reader { rest: expression, known: &Known::new(), is_si: false }.all().number
}

/// What an expression comes to in SI, symbols and units taken for what they stand for.
pub fn in_si(expression: &str, known: &Known) -> Value {
    Reader { rest: expression, known, is_si: true }.all()
}

/// A number with its unit in SI.
pub fn quantity(number: f64, unit: &str) -> Value {
    let mut value = Value { number, powers: [0; 4] };
    let mut over = false;
    for piece in unit.split_inclusive(['/', '.']) {
        let name = piece.trim_end_matches(['/', '.']);
        let power = name.chars().last().and_then(|c| c.to_digit(10)).unwrap_or(1) as i32;
        let power = if over { -power } else { power };
        let (factor, powers) = match name.trim_end_matches(|c: char| c.is_ascii_digit()) {
            "" | "°" => (1.0, [0, 0, 0, 0]),
            "mm" => (1e-3, [0, 1, 0, 0]),
            "m" => (1.0, [0, 1, 0, 0]),
            "g" => (1e-3, [1, 0, 0, 0]),
            "kg" => (1.0, [1, 0, 0, 0]),
            "s" => (1.0, [0, 0, 1, 0]),
            "K" => (1.0, [0, 0, 0, 1]),
            "N" => (1.0, [1, 1, -2, 0]),
            "Pa" => (1.0, [1, -1, -2, 0]),
            "J" => (1.0, [1, 2, -2, 0]),
            other => panic!("no unit {other} in {unit}"),
        };
        value.number *= f64::powi(factor, power);
        for (sum, one) in value.powers.iter_mut().zip(powers) {
            *sum += 2 * power * one;
        }
        over |= piece.ends_with('/');
    }
    value
}

struct Reader<'a> {
    rest: &'a str,
    known: &'a Known,
    is_si: bool,
}

impl Reader<'_> {
    fn all(mut self) -> Value {
        let value = self.sum();
        assert!(self.rest.trim().is_empty(), "left over: {}", self.rest);
        value
    }

    fn takes(&mut self, sign: &str) -> bool {
        self.rest = self.rest.trim_start();
        match self.rest.strip_prefix(sign) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    fn sum(&mut self) -> Value {
        let mut left = self.product();
        loop {
            let sign = match () {
                () if self.takes("+ ") => 1.0,
                () if self.takes("- ") => -1.0,
                () => return left,
            };
            let right = self.product();
            assert!(!self.is_si || left.powers == right.powers, "adds unlike things before {}", self.rest);
            left.number += sign * right.number;
        }
    }

    fn product(&mut self) -> Value {
        let mut left = self.power();
        loop {
            let power = match () {
                () if self.takes("·") || self.takes("×") => 1,
                () if self.takes("/ ") => -1,
                () => return left,
            };
            let right = self.power();
            left.number *= right.number.powi(power);
            for (sum, one) in left.powers.iter_mut().zip(right.powers) {
                *sum += power * one;
            }
        }
    }

    fn power(&mut self) -> Value {
        let mut base = self.whole();
        let power = ["²", "³", "⁴"].iter().position(|sign| self.takes(sign)).map_or(1, |at| at as i32 + 2);
        base.number = base.number.powi(power);
        base.powers = base.powers.map(|p| p * power);
        base
    }

    fn whole(&mut self) -> Value {
        type Function = fn(f64) -> f64;
        let functions: [(&str, Function); 4] = [
            ("√(", f64::sqrt),
            ("sin(", |x| x.to_radians().sin()),
            ("cos(", |x| x.to_radians().cos()),
            ("atan(", |x| x.atan().to_degrees()),
        ];
        for (name, of) in functions {
            if self.takes(name) {
                let inner = self.inner();
                let powers = if name == "√(" { inner.powers.map(|p| p / 2) } else { inner.powers };
                assert!(!self.is_si || name == "√(" || powers == [0; 4], "{name} of a quantity");
                return Value { number: of(inner.number), powers };
            }
        }
        if self.takes("(") {
            return self.inner();
        }
        if self.takes("π") {
            return Value { number: std::f64::consts::PI, powers: [0; 4] };
        }
        let digits = self.rest.find(|c: char| !c.is_ascii_digit() && c != '.' && c != '-').unwrap_or(self.rest.len());
        if digits > 0 {
            let number: f64 = self.rest[..digits].parse().unwrap_or_else(|_| panic!("no number in {}", self.rest));
            self.rest = &self.rest[digits..];
            return self.with_unit(number);
        }
        let is_symbol = |c: char| c.is_alphanumeric() || c == '\'' || c == '°';
        let is_power = |c: char| matches!(c, '²' | '³' | '⁴');
        let end = self.rest.find(|c: char| !is_symbol(c) || is_power(c)).unwrap_or(self.rest.len());
        let symbol = &self.rest[..end];
        let value = self.known.get(symbol).copied();
        self.rest = &self.rest[end..];
        value.unwrap_or_else(|| panic!("the page doesn't say what {symbol:?} is"))
    }

    fn inner(&mut self) -> Value {
        let value = self.sum();
        assert!(self.takes(")"), "no closing bracket in {}", self.rest);
        value
    }

    fn with_unit(&mut self, number: f64) -> Value {
        let spaced = self.rest.strip_prefix(' ').unwrap_or(self.rest);
        let end = spaced.find([' ', ')', '²', '³', '⁴']).unwrap_or(spaced.len());
        let unit = &spaced[..end];
        if unit.is_empty() || unit.starts_with(['+', '-', '×', '/', '·']) {
            return Value { number, powers: [0; 4] };
        }
        self.rest = &spaced[end..];
        let si = quantity(number, unit);
        if self.is_si {
            si
        } else {
            Value { number, ..si }
        }
    }
}
