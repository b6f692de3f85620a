//! The picture under a view: opening it, laying it, and how it shows.

use crate::app::{App, Say};
use crate::browser::dom::{Shown, find, make, on};
use crate::browser::page::Page;
use crate::browser::underlay;
use crate::drawing::{Laid, Placed, Underlay, Unfit, View};
use crate::panes::number_box::NumberBox;
use kernel::{PointId, clip};
use std::cell::RefCell;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, File, HtmlElement, HtmlInputElement, HtmlSelectElement};

/// The views in the order of the list they are chosen from.
const VIEWS: [View; 3] = View::PLANE;

/// Its part of the pane.
pub struct PicturePart {
    tools: HtmlElement,
    says: Shown,
    marks: [Shown; 2],
    joints: [HtmlSelectElement; 2],
    /// What can be chosen from in both.
    listed: RefCell<Vec<PointId>>,
    distance: NumberBox,
    numbers: [NumberBox; 4],
    opacity: HtmlInputElement,
    lock: HtmlInputElement,
}

impl PicturePart {
    /// Finds it on the page.
    pub fn new(page: &Page) -> PicturePart {
        opens(page);
        let mark = |which: usize, id: &str| {
            let (button, page) = (find::<Element>(id), page.clone());
            on(&button, "click", move |_: Event| {
                change(&page, |under| under.marking = (under.marking != Some(which)).then_some(which));
            });
            Shown::attribute(button, "aria-pressed")
        };
        let joints = ["joint-a", "joint-b"].map(find::<HtmlSelectElement>);
        let (laying, chosen) = (page.clone(), joints.clone());
        on(&find::<Element>("picture-lay"), "click", move |_: Event| lay(&laying, &chosen));
        let away = page.clone();
        on(&find::<Element>("picture-away"), "click", move |_: Event| away.take_underlay_away());
        let (opacity, lock) = (find::<HtmlInputElement>("picture-opacity"), find::<HtmlInputElement>("picture-lock"));
        let (showing, strength) = (page.clone(), opacity.clone());
        on(&opacity, "input", move |_: Event| {
            change(&showing, |under| under.opacity = strength.value_as_number() / 100.0);
        });
        let (locking, locked) = (page.clone(), lock.clone());
        on(&lock, "change", move |_: Event| change(&locking, |under| under.locked = locked.checked()));
        PicturePart {
            tools: find("picture-tools"),
            says: Shown::text(find::<Element>("picture-says")),
            marks: [mark(0, "mark-a"), mark(1, "mark-b")],
            joints,
            listed: RefCell::default(),
            distance: distance(page),
            numbers: numbers(page),
            opacity,
            lock,
        }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let under = page.underlay();
        self.tools.set_hidden(under.is_none());
        let Some(under) = under else { return };
        self.list(app);
        let shown = page.sheet().is_some_and(|sheet| sheet.area(under.view).is_some());
        self.says.show(says(&under, shown));
        for (which, mark) in self.marks.iter().enumerate() {
            mark.show(if under.marking == Some(which) { "true" } else { "false" });
        }
        let units = app.document.units;
        self.distance.show(&under.distance().map_or(String::new(), |mm| units.length(mm)));
        let Placed { right, up, turn, width } = under.laid.numbers(under.size);
        let texts = [units.length(right), units.length(up), crate::text::number::fixed(turn, 2), units.length(width)];
        self.numbers.iter().zip(texts).for_each(|(number, text)| number.show(&text));
        self.opacity.set_value_as_number((100.0 * under.opacity).round());
        self.lock.set_checked(under.locked);
    }

    /// The points that A and B can be; at first the first joint and the wheel centre.
    fn list(&self, app: &App) {
        let points: Vec<PointId> = app.document.layout.points().map(|(id, _)| id).collect();
        if *self.listed.borrow() == points {
            return;
        }
        let centre = points.iter().position(|id| *id == PointId::WheelCentre).unwrap_or_default();
        for (list, first) in self.joints.iter().zip([0, centre]) {
            list.set_text_content(None);
            points.iter().for_each(|id| make::<Element>(list, "option").set_text_content(Some(id.name())));
            list.set_selected_index(first as i32);
        }
        self.listed.replace(points);
    }
}

/// What is to be done next.
fn says(under: &Underlay, shown: bool) -> &'static str {
    match (under.marking, under.marks) {
        _ if !shown => "That view is not shown now: choose it above the drawing, or make this drawer smaller.",
        (Some(0), _) => "Now touch place A in the picture.",
        (Some(_), _) => "Now touch place B in the picture.",
        (None, [Some(_), Some(_)]) => "A and B are marked: say which points of the axle they are, or how far apart.",
        _ => "Mark two places that you know; or drag the picture to where it belongs.",
    }
}

/// Changes how the picture lies.
fn change(page: &Page, act: impl FnOnce(&mut Underlay)) {
    if let Some(mut under) = page.underlay() {
        act(&mut under);
        page.set_underlay(under);
    }
}

/// The same, if it can be.
fn try_to(page: &Page, act: impl FnOnce(&mut Underlay) -> Result<(), Unfit>) {
    let Some(mut under) = page.underlay() else { return };
    match act(&mut under) {
        Ok(()) => page.set_underlay(under),
        Err(why) => {
            let sentence = match why {
                Unfit::Unmarked => "Mark the places A and B in the picture first.",
                Unfit::Near => {
                    "A and B, or the points they are laid on, are too near each other in this view to lay the picture by."
                }
            };
            page.send(Say::Sentence(sentence.into()));
            page.change();
        }
    }
}

/// The button and the file behind it.
fn opens(page: &Page) {
    let file: HtmlInputElement = find("picture-file");
    let button = file.clone();
    on(&find::<Element>("picture-open"), "click", move |_: Event| button.click());
    let view: HtmlSelectElement = find("picture-view");
    let (chosen, choosing) = (view.clone(), page.clone());
    on(&view, "change", move |_: Event| {
        let view = view_of(&chosen);
        choosing.set_view(view);
        change(&choosing, |under| under.view = view);
    });
    let (picked, page) = (file.clone(), page.clone());
    on(&file, "change", move |_: Event| {
        if let Some(file) = picked.files().and_then(|files| files.get(0)) {
            open_picture(&page, file, view_of(&view));
        }
        // The same file can be picked again.
        picked.set_value("");
    });
}

fn view_of(list: &HtmlSelectElement) -> View {
    VIEWS.get(list.selected_index().unsigned_abs() as usize).copied().unwrap_or(View::Front)
}

/// Opens a picture and lays it under a view; of a file that is none there is a sentence.
pub fn open_picture(page: &Page, file: File, view: View) {
    let page = page.clone();
    page.set_view(view);
    let at = VIEWS.iter().position(|other| *other == view).unwrap_or_default();
    find::<HtmlSelectElement>("picture-view").set_selected_index(at as i32);
    spawn_local(async move {
        match underlay::read(&file).await {
            Some(pixels) => page.lay_under(pixels, view),
            None => page.send(Say::Sentence(format!(
                "This browser can’t read “{}” as a picture; use JPEG or PNG.",
                clip(&file.name())
            ))),
        }
    });
}

/// Lays A and B on the points chosen, where the drawing has them now.
fn lay(page: &Page, chosen: &[HtmlSelectElement; 2]) {
    let points = page.with(|app| {
        let points: Vec<PointId> = app.document.layout.points().map(|(id, _)| id).collect();
        let place = |list: &HtmlSelectElement| {
            let id = points.get(usize::try_from(list.selected_index()).ok()?)?;
            app.study.good.place(*id)
        };
        Some([place(&chosen[0])?, place(&chosen[1])?])
    });
    if let Some(points) = points {
        try_to(page, |under| under.lay(points));
    }
}

/// The box for how far A and B are from each other.
fn distance(page: &Page) -> NumberBox {
    NumberBox::named(page, &find("picture-distance"), "from A to B", |page, value| {
        let units = page.with(|app| app.document.units);
        try_to(page, |under| under.stretch(units.typed_length(value)));
    })
}

/// The boxes for where the picture lies.
fn numbers(page: &Page) -> [NumberBox; 4] {
    let mut at = 0;
    ["picture to the right", "picture up", "picture turned, °", "picture wide"].map(|name| {
        let which = at;
        at += 1;
        NumberBox::named(page, &find("picture-place"), name, move |page, value| {
            let mm = page.with(|app| app.document.units).typed_length(value);
            change(page, |under| {
                let mut numbers = under.laid.numbers(under.size);
                match which {
                    0 => numbers.right = mm,
                    1 => numbers.up = mm,
                    2 => numbers.turn = value,
                    _ if mm > 0.0 => numbers.width = mm,
                    _ => {}
                }
                under.laid = Laid::placed(under.size, numbers);
            });
        })
    })
}
