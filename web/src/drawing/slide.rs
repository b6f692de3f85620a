//! A slide: one drawing, the pinned readings beside it, and what is said on a strip below; nothing lies over anything. For shows, films and projectors.

use super::lettering::wrapped;
use super::shapes::P;
use crate::document::story::Stress;

/// What a slide has beside its drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Slide {
    /// What is said; empty for none.
    pub said: String,
    /// The axle's name.
    pub name: String,
    /// Where it is and what loads it, in words.
    pub place: String,
    /// Pinned readings.
    pub readings: Vec<Line>,
    /// What is emphasised.
    pub stress: Option<Stress>,
    /// How much paper covers the drawing, 0 to 1.
    pub paper: f64,
    /// How many times larger than to fit it is drawn; 0 is as 1.
    pub zoom: f64,
}

/// A pinned reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its column.
    pub column: &'static str,
    /// What it is called.
    pub name: String,
    /// Its value with its unit.
    pub value: String,
}

/// How many times as large as on the page its letters are: this many px across, or down, are as many as there are letters for.
pub fn letters([width, height]: P) -> f64 {
    let fits = if width > height { f64::min(width / 680.0, height / 520.0) } else { width / 480.0 };
    fits.clamp(1.0, 3.0)
}

/// Letters and lines, px: of what is said, of a reading's name, of its value.
pub(super) const SAID: [f64; 2] = [19.0, 25.0];
const NAME: [f64; 2] = [14.0, 17.0];
pub(super) const VALUE: [f64; 2] = [25.0, 31.0];

/// Free paper round words, px.
pub(super) const ASIDE: f64 = 18.0;
pub(super) const AIR: f64 = 9.0;

/// The part of a level slide that the readings take, and between which widths, px.
const PANEL: f64 = 0.3;
const PANELS: P = [190.0, 340.0];

/// Where everything stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Places {
    /// The drawing's far corner; it begins in the upper left one.
    pub drawing: P,
    /// The readings, least and greatest; on an upright slide below the drawing.
    pub panel: [P; 2],
    /// What is said, least and greatest.
    pub strip: [P; 2],
}

impl Slide {
    /// Finds the places on a sheet of a size.
    pub fn places(&self, size: P) -> Places {
        let [width, height] = size;
        let said = self.said_lines(width).len() as f64;
        let strip = if said == 0.0 { 0.0 } else { said * SAID[1] + 1.5 * AIR };
        let low = (height - strip).max(0.0);
        let panel = if width > height {
            let wide = (PANEL * width).clamp(PANELS[0], PANELS[1]).min(width);
            [[width - wide, 0.0], [width, low]]
        } else {
            let high = self.rows(width).iter().map(|row| row.height).sum::<f64>() + AIR;
            [[0.0, low - high.min(low / 2.0)], [width, low]]
        };
        let drawing = if width > height { [panel[0][0], low] } else { [width, panel[0][1]] };
        Places { drawing, panel, strip: [[0.0, low], size] }
    }

    /// What is said, in lines for a strip so wide.
    pub(super) fn said_lines(&self, width: f64) -> Vec<String> {
        if self.said.is_empty() { Vec::new() } else { wrapped(&self.said, SAID[0], width - 2.0 * ASIDE) }
    }

    /// What stands in a panel so wide.
    pub(super) fn rows(&self, width: f64) -> Vec<Row> {
        let inside = width - 2.0 * ASIDE;
        let plain = |text: &str, size: f64, bold: bool| {
            let lines = wrapped(text, size, inside);
            Row { height: lines.len() as f64 * size * 1.25, name: lines, value: String::new(), size, bold, column: "" }
        };
        let head = [plain(&self.name, 15.0, true), plain(&self.place, 12.5, false)];
        let reading = |line: &Line| {
            let name = wrapped(&line.name, NAME[0], inside);
            let height = AIR + name.len() as f64 * NAME[1] + VALUE[1];
            Row { name, value: line.value.clone(), height, size: NAME[0], bold: false, column: line.column }
        };
        head.into_iter().chain(self.readings.iter().map(reading)).collect()
    }
}

/// A row of the panel.
pub(super) struct Row {
    /// What it is called, in lines.
    pub name: Vec<String>,
    /// A reading's value, below its name.
    pub value: String,
    /// All of it, px.
    pub height: f64,
    /// Of the name's letters, px.
    pub size: f64,
    pub bold: bool,
    /// Of a reading; empty for what is none.
    pub column: &'static str,
}
