//! Colours: the tokens of the sheet, light and dark. No meaning hangs on hue alone.

/// The paper, and how strongly the reader wants to see what is on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Theme {
    /// Chalk on slate in place of ink on paper.
    pub dark: bool,
    /// Secondary text, thin lines, rules and ghosts take stronger inks.
    pub contrast: bool,
}

impl Theme {
    /// Ink on paper: print and export.
    pub const LIGHT: Theme = Theme { dark: false, contrast: false };
    /// Chalk on slate.
    pub const DARK: Theme = Theme { dark: true, contrast: false };
}

/// What a colour is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names are the meaning")]
pub enum Ink {
    Paper,
    Panel,
    Ink,
    Ink2,
    Ink3,
    Rule,
    Ghost,
    Hatch,
    Selected,
    Fault,
    Compared,
    Lower,
    Upper,
    Steering,
    AxisBand,
    Strut,
    Carrier,
    Tyre,
}

impl Ink {
    /// The colour on a theme's paper, `#RRGGBB`.
    pub fn colour(self, theme: Theme) -> &'static str {
        let ink = match self {
            Ink::Ink2 | Ink::Ink3 | Ink::Hatch if theme.contrast => Ink::Ink,
            Ink::Rule | Ink::Ghost if theme.contrast => Ink::Ink2,
            ink => ink,
        };
        let [light, dark] = match ink {
            Ink::Paper => ["#FBFAF5", "#15181B"],
            Ink::Panel => ["#F3F1E9", "#1D2125"],
            Ink::Ink => ["#17191C", "#ECE9E1"],
            Ink::Ink2 => ["#50545A", "#B4B5B3"],
            Ink::Ink3 => ["#74787E", "#92959A"],
            Ink::Rule => ["#C9C6BC", "#3B4046"],
            Ink::Ghost => ["#908F89", "#666B70"],
            Ink::Hatch => ["#6B6E72", "#8A8E92"],
            Ink::Selected => ["#0067A8", "#6FB9F2"],
            Ink::Fault => ["#C44601", "#FF8A4C"],
            Ink::Compared => ["#A2417F", "#E79CC8"],
            Ink::Lower => ["#E9A23B", "#A96C12"],
            Ink::Upper => ["#7CC4EE", "#2B7BA8"],
            Ink::Steering => ["#F2E55A", "#9A8F1E"],
            Ink::AxisBand => ["#F2E55A", "#8A801C"],
            Ink::Strut => ["#35AD86", "#157A5B"],
            Ink::Carrier => ["#C4C0B4", "#555B61"],
            Ink::Tyre => ["#EDEBE4", "#1F2327"],
        };
        if theme.dark { dark } else { light }
    }
}
