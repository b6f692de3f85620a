//! One limit for links: what the page writes it reads, and what would be longer is refused in a sentence.

use web::app::{About, App};
use web::content::demos::first;
use web::document::Document;
use web::document::story::{MOST_SHOTS, Shot};
use web::link::{read, write};

/// A letter of four bytes, so twelve characters in a link.
const LETTER: &str = "𠀀";

/// The same as a link carries it.
const ENCODED: &str = "%F0%A0%80%80";

/// The page on a file with the longest name and note there can be.
fn wordy() -> App {
    let mut layout = first();
    (layout.name, layout.note) = (LETTER.repeat(kernel::LONGEST_NAME), LETTER.repeat(kernel::LONGEST_NOTE));
    assert_eq!(kernel::validate(&layout), []);
    App::new(Document::of(layout), Vec::new())
}

/// As many shots as there can be, with captions of so many letters.
fn shots(app: &App, letters: usize) -> Vec<Shot> {
    vec![Shot::of(&app.document, None, LETTER.repeat(letters)); MOST_SHOTS]
}

/// What the page's boxes for words hold, files and links hold too, and no less.
#[test]
fn boxes_for_words_are_as_long_as_what_keeps_them() {
    let markup = tests::markup();
    for (ids, longest) in [
        (&["name", "by"][..], kernel::LONGEST_NAME),
        (&["note", "own-words", "edit-task", "edit-hint"], kernel::LONGEST_NOTE),
    ] {
        for id in ids {
            let tag = markup.split('<').find(|tag| tag.contains(&format!(" id=\"{id}\""))).expect("a box");
            assert!(tag.contains(&format!(" maxlength=\"{longest}\"")), "{tag}");
        }
    }
}

#[test]
fn the_longest_story_that_can_be_typed_opens_again() {
    let mut app = wordy();
    app.update(About::Story(shots(&app, 300)));
    assert_eq!(app.document.story.len(), MOST_SHOTS);
    let link = write(&app.document);
    assert!(link.len() > 350_000, "{} characters", link.len());
    let (back, faults) = read(&link).expect("a link");
    assert_eq!(faults, Vec::<String>::new());
    assert_eq!(back, app.document);
}

#[test]
fn a_story_that_no_link_could_carry_is_refused_in_a_sentence_and_a_shorter_one_is_taken() {
    let mut app = wordy();
    let before = app.document.clone();
    app.update(About::Story(shots(&app, 2_000)));
    assert_eq!(app.document, before);
    assert!(app.notices[0].starts_with("This was not added: the link would have 7"), "{:?}", app.notices);
    app.update(About::Story(shots(&app, 300)));
    let mut longer = app.document.story.clone();
    longer[0].caption = LETTER.repeat(20_000);
    app.update(About::Story(longer));
    assert_eq!(app.document.story, shots(&app, 300));
    app.update(About::Story(Vec::new()));
    assert_eq!(app.document, before);
}

/// Letters as they are, not percent-encoded, make a link that is short enough to be read and too long to be kept.
#[test]
fn a_link_that_could_not_be_written_again_is_not_read() {
    let app = wordy();
    let document = Document { story: shots(&app, 2_000), ..app.document };
    let link = write(&document).replace(ENCODED, LETTER);
    assert!(link.len() < 300_000, "{} characters", link.len());
    let (shown, faults) = read(&link).expect("a link");
    assert_eq!(shown, Document::of(first()));
    assert!(faults[0].ends_with("more than 500000 are not read. The four-arm demo is shown."), "{faults:?}");
}
