//! What is typed in the rows of a goal: readings' values, lengths, lists of travels.

use super::{LENGTH, change, number};
use crate::app::Say;
use crate::browser::dom::set;
use crate::browser::page::Page;
use crate::document::goal::Aim;
use crate::panes::typed_box::TypedBox;
use crate::text::number::{Units, plain};
use crate::text::typed::Kind;
use kernel::clip;
use web_sys::Element;

/// What is typed of an aim's reading.
pub(super) fn kind(aim: &Aim) -> Kind {
    aim.quantity()
        .map_or(Kind::PLAIN, |quantity| Kind { unit: quantity.reading().unit, toe: quantity.column() == "toe_deg" })
}

/// What a row's aim is called.
pub(super) fn name(aim: &Aim) -> String {
    aim.quantity().map_or(clip(&aim.reading), |quantity| quantity.reading().full_name())
}

/// A number of an aim as it is typed.
pub(super) fn shown(units: Units, aim: &Aim, value: f64) -> String {
    let factor = aim.quantity().map_or(1.0, |quantity| units.shown(quantity.reading()).1);
    plain(value * factor).replace('-', "\u{2212}")
}

/// A length without the zeros that say nothing.
pub(super) fn short(units: Units, mm: f64) -> String {
    let text = units.length(mm);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').into() } else { text }
}

/// Lengths apart by blanks or semicolons; a unit behind the last is that of all.
pub(super) fn travels(page: &Page, text: &str) -> Option<Vec<f64>> {
    let unit = text.find(|letter: char| letter.is_alphabetic() || letter == '"').unwrap_or(text.len());
    let (list, unit) = text.split_at(unit);
    let cells =
        list.split(|letter: char| letter.is_whitespace() || letter == ';').map(|cell| cell.trim_end_matches(','));
    let all: Option<Vec<f64>> =
        cells.filter(|cell| !cell.is_empty()).map(|cell| number(page, LENGTH, &format!("{cell} {unit}"))).collect();
    all.filter(|all| !all.is_empty())
}

/// Changes the aim of a row.
pub(super) fn change_aim(page: &Page, at: usize, with: impl FnOnce(&mut Aim)) {
    change(page, |goal| {
        if let Some(aim) = goal.aims.get_mut(at) {
            with(aim);
        }
    });
}

/// A box of travels; what is none is said.
pub(super) fn travel_box(page: &Page, place: &Element, take: impl Fn(&Page, Vec<f64>) + 'static) -> TypedBox {
    let travel = TypedBox::new(page, place, "at travel", move |page, text| match travels(page, text) {
        Some(travels) => take(page, travels),
        None => page.send(Say::Sentence(format!(
            "“{}” is no list of travels: type one or several, with blanks between, such as −40 0 40.",
            clip(text)
        ))),
    });
    set(&travel.input, "class", "box travels");
    travel
}
