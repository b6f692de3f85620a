//! Margins: has the ± of all readings worked out beside the page once the axle is at rest, and says what they mean. Others show them.

use super::followed::Followed;
use crate::app::{App, Margin};
use crate::browser::dom::{Shown, Veil, find, on};
use crate::browser::page::{Page, Pane};
use crate::study::margins::{Margins, Question};
use crate::work::margins::{read, task};
use web_sys::{Element, Event, HtmlElement};

/// Who asks for them.
pub struct MarginsPane {
    followed: Followed<Question, Margins>,
    meaning: Veil,
    words: Shown,
}

impl MarginsPane {
    /// Finds its words on the page.
    pub fn new() -> MarginsPane {
        on(&find::<Element>("margins-more"), "click", |_: Event| find::<HtmlElement>("tab-spread").click());
        MarginsPane {
            followed: Followed::new(task, read),
            meaning: Veil::of("margins"),
            words: Shown::text(find::<Element>("margins-words")),
        }
    }
}

impl Pane for MarginsPane {
    fn show(&self, page: &Page, app: &App) {
        let meaning = app.margins_mean();
        self.meaning.set_hidden(meaning.is_none());
        self.words.show(&meaning.unwrap_or_default());
        let Some(question) = app.margins_question() else {
            self.followed.forget();
            if app.knows_margins() {
                page.send(Margin::Told(None));
            }
            return;
        };
        // Nothing is asked about what moves, nor about what can't be assembled.
        let moves = app.held() || page.playing().is_some() || app.tells();
        if app.study.trouble.is_some() || app.knows_margins_of(&question) {
            return;
        }
        if let Some((told, true)) = self.followed.ask(page, moves, &question) {
            page.send(Margin::Told(Some(Box::new((question, (*told).clone())))));
        }
    }
}
