//! One ink, two greys, one warm and one cool accent: a light scheme for paper and screens, and a dark one for screens.

use crate::scene::Role;

/// The colour of each role.
pub struct Scheme([(Role, [u8; 3]); 7]);

/// Every role.
pub const ROLES: [Role; 7] = [Role::Paper, Role::Ink, Role::Mid, Role::Faint, Role::Pale, Role::Fails, Role::Looks];

/// On paper, and by day.
pub static LIGHT: Scheme = Scheme([
    (Role::Paper, [0xff, 0xff, 0xff]),
    (Role::Ink, [0x1d, 0x27, 0x33]),
    (Role::Mid, [0x56, 0x62, 0x6e]),
    (Role::Faint, [0x87, 0x91, 0x9b]),
    (Role::Pale, [0xd3, 0xd8, 0xdd]),
    (Role::Fails, [0xb5, 0x54, 0x1c]),
    (Role::Looks, [0x2b, 0x6a, 0x8f]),
]);

/// On screens that are dark.
pub static DARK: Scheme = Scheme([
    (Role::Paper, [0x15, 0x1a, 0x20]),
    (Role::Ink, [0xe7, 0xea, 0xed]),
    (Role::Mid, [0xa9, 0xb3, 0xbd]),
    (Role::Faint, [0x6f, 0x7a, 0x86]),
    (Role::Pale, [0x37, 0x41, 0x4b]),
    (Role::Fails, [0xf0, 0x93, 0x5a]),
    (Role::Looks, [0x84, 0xbf, 0xe4]),
]);

impl Scheme {
    /// A role's colour: red, green and blue.
    pub fn rgb(&self, role: Role) -> [u8; 3] {
        self.0.iter().find(|(known, _)| *known == role).map_or([0; 3], |(_, rgb)| *rgb)
    }

    /// The same as `#rrggbb`.
    pub fn of(&self, role: Role) -> String {
        let [r, g, b] = self.rgb(role);
        format!("#{r:02x}{g:02x}{b:02x}")
    }
}

#[cfg(test)]
mod tests {
    use super::{DARK, LIGHT};
    use crate::scene::Role;

    /// Relative luminance and contrast: Web Content Accessibility Guidelines 2.2, W3C 2023.
    fn luminance([r, g, b]: [u8; 3]) -> f64 {
        let linear = |c: u8| match f64::from(c) / 255.0 {
            c if c <= 0.04045 => c / 12.92,
            c => ((c + 0.055) / 1.055).powf(2.4),
        };
        0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b)
    }

    #[test]
    fn words_stand_out_from_the_paper_in_both_schemes() {
        for scheme in [&LIGHT, &DARK] {
            let paper = luminance(scheme.rgb(Role::Paper));
            for role in [Role::Ink, Role::Mid, Role::Fails, Role::Looks] {
                let words = luminance(scheme.rgb(role));
                let contrast = (paper.max(words) + 0.05) / (paper.min(words) + 0.05);
                assert!(contrast >= 4.5, "{role:?} {contrast:.2}");
            }
        }
    }
}
