//! The cells of the sheet: a group of rows for each reading, a row for each wheel, of toe one for both together.

use super::{change, height};
use crate::app::{App, Say, Told};
use crate::browser::dom::{Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::alignment::{Alignment, Cell, Row};
use crate::panes::typed_box::TypedBox;
use crate::text::printout::Scale;
use kernel::{LeftOrRight, clip};
use web_sys::Element;

/// The cells.
pub struct Cells(Vec<Group>);

/// The rows of one reading.
struct Group {
    row: Row,
    unit: Shown,
    typed: Vec<(Cell, TypedBox)>,
    /// Of the left and the right wheel: what the axle has, and how what is typed differs.
    told: [[Shown; 2]; 2],
    /// Of toe: both wheels together, before, after, and what the axle has.
    total: Option<([TypedBox; 2], Shown)>,
}

/// Angles beyond this, degrees, are slips; so are heights beyond `MOST_HEIGHT`, mm.
const MOST_ANGLE: f64 = 45.0;
const MOST_HEIGHT: f64 = 1000.0;

/// A column that is typed: its heading, and its cell of a wheel.
type Column = (&'static str, fn(LeftOrRight) -> Cell);

const COLUMNS: [Column; 2] = [("before", Cell::Before), ("after", Cell::After)];

impl Cells {
    /// Furnishes the table.
    pub fn new(page: &Page) -> Cells {
        let table: Element = find("align-cells");
        Cells(Row::ALL.map(|(row, name)| Group::new(page, &make(&table, "tbody"), row, name)).into())
    }

    /// Shows what stands in them.
    pub fn show(&self, app: &App, sheet: &Alignment) {
        for group in &self.0 {
            group.show(app, sheet);
        }
    }
}

impl Group {
    fn new(page: &Page, body: &Element, row: Row, name: &'static str) -> Group {
        let mut typed = Vec::new();
        let mut cell = |place: &Element, label: &str, cell: Cell| {
            let label = format!("{name}, {label}");
            let typing = label.clone();
            let take = move |page: &Page, text: &str| take(page, row, cell, &typing, text);
            typed.push((cell, TypedBox::new(page, place, &label, take)));
        };
        let head: Element = make(&make(body, "tr"), "th");
        set(&head, "class", "head");
        set(&head, "colspan", "5");
        make::<Element>(&head, "b").set_text_content(Some(name));
        for (before, label, of) in [
            ("± ", "±", Cell::Error),
            ("wanted ", "wanted from", Cell::Wanted(0)),
            ("to ", "wanted to", Cell::Wanted(1)),
        ] {
            let place: Element = make(&head, "label");
            make::<Element>(&place, "span").set_text_content(Some(before));
            cell(&place, label, of);
        }
        let unit = Shown::text(make::<Element>(&head, "span"));
        let told = LeftOrRight::BOTH.map(|side| {
            let line = line(body, side.name());
            for (when, of) in COLUMNS {
                cell(&make(&line, "td"), &format!("{}, {when}", side.name()), of(side));
            }
            [(), ()].map(|()| Shown::text(make::<Element>(&line, "td")))
        });
        let total = (row == Row::Toe).then(|| {
            let line = line(body, "both");
            let boxes = COLUMNS.map(|(when, of)| {
                let label = format!("Toe, both wheels, {when}");
                let typing = label.clone();
                let take = move |page: &Page, text: &str| {
                    if let Some(Some(total)) = read(page, row, 2.0 * MOST_ANGLE, &typing, text) {
                        change(page, |sheet| sheet.set_total_toe(LeftOrRight::BOTH.map(of), total));
                    }
                };
                TypedBox::new(page, &make(&line, "td"), &label, take)
            });
            let axle = Shown::text(make::<Element>(&line, "td"));
            make::<Element>(&line, "td");
            (boxes, axle)
        });
        Group { row, unit, typed, told, total }
    }

    fn show(&self, app: &App, sheet: &Alignment) {
        let (row, scale) = (self.row, sheet.scale(self.row, app.document.units));
        self.unit.show(scale.unit());
        for (cell, typed) in &self.typed {
            let value = if *cell == Cell::Error { Some(sheet.error(row)) } else { sheet.cell(row, *cell) };
            typed.show(&value.map_or(String::new(), |value| scale.text(value)));
        }
        let axle = app.aligned(row).map(|told| match told {
            Told::Value(Some(value)) => Told::Value(height(sheet, row, value)),
            other => other,
        });
        let text = |told: Told| match told {
            Told::Hidden => "?".into(),
            Told::Value(value) => value.map_or("–".into(), |value| scale.text(value)),
        };
        for side in LeftOrRight::BOTH {
            let [of_axle, difference] = &self.told[side.index()];
            of_axle.show(&text(axle[side.index()]));
            difference.show(&differs(sheet, row, scale, side, axle[side.index()].value()));
        }
        if let Some((boxes, of_axle)) = &self.total {
            let sum = |both: [Option<f64>; 2]| Some(both[0]? + both[1]?);
            for (typed, (_, of)) in boxes.iter().zip(COLUMNS) {
                let both = LeftOrRight::BOTH.map(|side| sheet.cell(row, of(side)));
                typed.show(&sum(both).map_or(String::new(), |total| scale.text(total)));
            }
            let hidden = axle.contains(&Told::Hidden);
            of_axle.show(&text(if hidden { Told::Hidden } else { Told::Value(sum(axle.map(Told::value))) }));
        }
    }
}

/// A row with its heading.
fn line(body: &Element, name: &str) -> Element {
    let line: Element = make(body, "tr");
    let heading: Element = make(&line, "th");
    set(&heading, "scope", "row");
    heading.set_text_content(Some(name));
    line
}

/// How the value that was typed last differs from the axle's and from what is wanted, in words.
fn differs(sheet: &Alignment, row: Row, scale: Scale, side: LeftOrRight, axle: Option<f64>) -> String {
    let Some(value) = sheet.cell(row, Cell::After(side)).or(sheet.cell(row, Cell::Before(side))) else {
        return String::new();
    };
    let mut words: Vec<String> = axle.into_iter().map(|axle| scale.signed(value - axle)).collect();
    let unit = if scale.unit().is_empty() { String::new() } else { format!(" {}", scale.unit()) };
    words.extend(match sheet.line(row).wanted {
        [Some(least), _] if value < least => Some(format!("{}{unit} below wanted", scale.text(least - value))),
        [_, Some(most)] if value > most => Some(format!("{}{unit} above wanted", scale.text(value - most))),
        [None, None] => None,
        _ => Some("as wanted".into()),
    });
    words.join("; ")
}

/// A typed value within a limit, `None` for an empty cell; what is none is said in a sentence.
fn read(page: &Page, row: Row, most: f64, label: &str, text: &str) -> Option<Option<f64>> {
    if text.trim().is_empty() {
        return Some(None);
    }
    let scale = page.with(|app| app.alignment().scale(row, app.document.units));
    let value = scale.read(text).filter(|value| value.abs() <= most);
    if value.is_none() {
        let (text, example) = (clip(text), if row == Row::Height { "a length" } else { "a number, or as −1°15′" });
        page.send(Say::Sentence(format!(
            "“{text}” is not a value for “{label}”: type {example}, within ±{}.",
            scale.text(most)
        )));
    }
    value.map(Some)
}

/// Takes what was typed into a cell.
fn take(page: &Page, row: Row, cell: Cell, label: &str, text: &str) {
    let most = if row == Row::Height { MOST_HEIGHT } else { MOST_ANGLE };
    let Some(value) = read(page, row, most, label, text) else { return };
    // Only a height can be exact.
    let error = cell == Cell::Error && value.is_some_and(|value| value < 0.0 || value == 0.0 && row != Row::Height);
    if error {
        page.send(Say::Sentence(format!("“{}” is not an error for “{label}”: it must be more than 0.", clip(text))));
    } else {
        change(page, |sheet| sheet.set(row, cell, value));
    }
}
