//! How a slide is looked at: what moves, from where it is seen, how large, and what is emphasised.

use super::change_shot;
use crate::app::Say;
use crate::browser::dom::{Listener, make, set};
use crate::browser::page::Page;
use crate::document::story::{MOST_DRAGGED, Moves, Seen, Shot, Stress, ZOOMS};
use crate::text::number::{parse, plain};
use kernel::{Vec3, clip};
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlInputElement, HtmlSelectElement};

type Listed = Rc<RefCell<Vec<Shot>>>;

/// The boxes of a slide, at the end of its row.
pub fn boxes(page: &Page, row: &Element, at: usize, shot: &Shot, listed: &Listed) -> Vec<Listener> {
    let boxes = Boxes { page, row, at, listed };
    let moves = Moves::ALL.map(|(moves, _, name)| (moves, name.to_string()));
    let seen = Seen::ALL.map(|(seen, _, name)| (seen, name.to_string()));
    let stressed = Stress::choices(&shot.layout, &shot.pinned);
    let stressed = stressed.into_iter().map(|stress| (Some(stress), stress.name(&shot.layout)));
    let stressed: Vec<_> = [(None, "Nothing emphasised".to_string())].into_iter().chain(stressed).collect();
    let mut made = vec![
        boxes.choice("movement", &moves, shot.moves, |shot, moves| shot.moves = moves),
        boxes.choice("view", &seen, shot.seen, |shot, seen| shot.seen = seen),
        boxes.choice("emphasis", &stressed, shot.stress, |shot, stress| shot.stress = stress),
        boxes.numbers("zoom", "×", &[shot.zoom], zoomed),
    ];
    if shot.moves == Moves::Drag {
        made.push(boxes.numbers("joint dragged by", "mm x, y, z", shot.by.as_slice(), dragged));
    }
    made
}

/// Puts numbers into a slide; the sentence says what they must be.
type Put = fn(&mut Shot, &[f64]) -> Result<(), String>;

fn zoomed(shot: &mut Shot, numbers: &[f64]) -> Result<(), String> {
    let [least, most] = ZOOMS;
    match numbers {
        [zoom] if (least..=most).contains(zoom) => shot.zoom = *zoom,
        _ => return Err(format!("a slide is shown {least} to {most} times as large as it fits")),
    }
    Ok(())
}

fn dragged(shot: &mut Shot, numbers: &[f64]) -> Result<(), String> {
    match numbers {
        [x, y, z] if numbers.iter().all(|mm| mm.abs() <= MOST_DRAGGED) => shot.by = Vec3::new(*x, *y, *z),
        _ => return Err(format!("three numbers with spaces between them, each within ±{MOST_DRAGGED} mm")),
    }
    Ok(())
}

struct Boxes<'a> {
    page: &'a Page,
    row: &'a Element,
    at: usize,
    listed: &'a Listed,
}

impl Boxes<'_> {
    fn label(&self, what: &str) -> String {
        format!("Slide {}, {what}", self.at + 1)
    }

    /// One of some values.
    fn choice<T: Copy + PartialEq + 'static>(
        &self,
        what: &str,
        choices: &[(T, String)],
        chosen: T,
        put: impl Fn(&mut Shot, T) + 'static,
    ) -> Listener {
        let select: HtmlSelectElement = make(self.row, "select");
        set(&select, "aria-label", &self.label(what));
        for (value, name) in choices {
            let option: Element = make(&select, "option");
            option.set_text_content(Some(name));
            if *value == chosen {
                set(&option, "selected", "");
            }
        }
        let values: Vec<T> = choices.iter().map(|(value, _)| *value).collect();
        let (page, listed, at, picked) = (self.page.clone(), self.listed.clone(), self.at, select.clone());
        Listener::new(&select, "change", move |_: Event| {
            if let Some(value) = values.get(picked.selected_index() as usize) {
                change_shot(&page, &listed.borrow(), at, |shots, at, _| put(&mut shots[at], *value));
            }
        })
    }

    /// Numbers, with spaces between them.
    fn numbers(&self, what: &str, unit: &str, values: &[f64], put: Put) -> Listener {
        let label: Element = make(self.row, "label");
        let field: HtmlInputElement = make(&label, "input");
        label.append_with_str_1(&format!(" {unit}")).unwrap_or_default();
        set(&field, "class", "box");
        set(&field, "aria-label", &self.label(what));
        let shown = values.iter().map(|value| plain(*value)).collect::<Vec<_>>().join(" ");
        field.set_value(&shown);
        let (page, listed, at, typed) = (self.page.clone(), self.listed.clone(), self.at, field.clone());
        let label = self.label(what);
        Listener::new(&field, "change", move |_: Event| {
            let text = typed.value();
            let numbers: Option<Vec<f64>> = text.split_whitespace().map(parse).collect();
            let mut tried = listed.borrow().get(at).cloned();
            let put_in = |shot: &mut Shot| put(shot, numbers.as_deref().unwrap_or_default());
            match tried.as_mut().map(put_in) {
                Some(Ok(())) => {
                    let tried = tried.take();
                    change_shot(&page, &listed.borrow(), at, |shots, at, _| {
                        tried.into_iter().for_each(|shot| shots[at] = shot)
                    });
                }
                Some(Err(must)) => {
                    page.send(Say::Sentence(format!("{label} can’t be “{}”: {must}.", clip(&text))));
                    typed.set_value(&shown);
                }
                None => {}
            }
        })
    }
}
