//! A motor's code as it stands on its label: `D9-5`, `1/2A3-2`.

/// A motor's code: letter, average thrust, delay.
#[derive(Clone, Debug, PartialEq)]
pub struct Code {
    /// The class letter, `1/2A` for example.
    pub letter: String,
    /// Average thrust, N.
    pub average: f64,
    /// Delay, s; `None` where the code has none.
    pub delay: Option<f64>,
}

/// The parts of a code such as `D9-5` or `1/2A3-2`; `None` where it isn't one.
pub fn read_code(code: &str) -> Option<Code> {
    let code = code.trim();
    let end = code.find(|c: char| c.is_ascii_uppercase())? + 1;
    let (letter, rest) = code.split_at(end);
    let digits = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
    let (average, rest) = rest.split_at(digits);
    let average = average.parse::<f64>().ok()?;
    let delay = rest.strip_prefix('-').and_then(|d| d.trim().parse().ok());
    Some(Code { letter: letter.to_string(), average, delay })
}

impl Code {
    /// Whether a thrust can be taken from it: a letter that stands for a class of impulse, and an average.
    pub fn gives_thrust(&self) -> bool {
        let letter = self.letter.strip_prefix("1/").and_then(|part| part.strip_prefix(['2', '4', '8']));
        let known = match letter {
            Some(letter) => letter == "A",
            None => matches!(self.letter.as_bytes(), [b'A'..=b'O']),
        };
        known && self.average > 0.0
    }
}
