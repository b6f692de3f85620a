//! The curves of the pinned readings, over travel or over steering. Brought up to date only while they are shown.

use crate::app::{App, Hand, Show, Stand};
use crate::browser::chart::{Framed, draw_curves, draw_frame};
use crate::browser::dom::{Listener, Shown, Veil, find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::browser::window::{Sight, Size, pixel_ratio};
use crate::document::Over;
use crate::plot::Plot;
use crate::text::number::signed;
use kernel::Reading;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlCanvasElement, HtmlElement, PointerEvent};

/// Small multiples, one a pinned reading.
pub struct Curves {
    whole: HtmlElement,
    plots: Element,
    curves: RefCell<Vec<Curve>>,
    over: [(Over, Shown); 4],
    keys: [(Veil, Shown); 2],
    /// Explains the band that curves may lie in.
    band: Veil,
    /// Only the whole axle rolls.
    roll: Veil,
}

struct Curve {
    reading: &'static Reading,
    class: Shown,
    now: Shown,
    off: Shown,
    size: Size,
    sight: Sight,
    below: HtmlCanvasElement,
    above: HtmlCanvasElement,
    framed: Rc<RefCell<Option<Framed>>>,
    _listeners: Vec<Listener>,
}

impl Curves {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> Curves {
        let over = [
            (Over::Travel, "over-travel"),
            (Over::TravelUpright, "over-upright"),
            (Over::Steering, "over-steering"),
            (Over::Roll, "over-roll"),
        ]
        .map(|(over, id)| {
            let (button, page) = (find::<Element>(id), page.clone());
            on(&button, "click", move |_: Event| page.send(Show::Over(over)));
            (over, Shown::attribute(button, "aria-pressed"))
        });
        let keys = ["key", "key-faint"].map(|id| (Veil::of(id), Shown::text(find::<Element>(id))));
        let opening = page.clone();
        on(&find::<Element>("tab-curves"), "click", move |_: Event| opening.change());
        Curves {
            whole: find("curves"),
            plots: find("plots"),
            curves: RefCell::default(),
            over,
            keys,
            band: Veil::of("key-band"),
            roll: Veil::of("over-roll"),
        }
    }

    /// Makes the figures anew when other readings are pinned.
    fn follow(&self, page: &Page, app: &App) {
        let mut curves = self.curves.borrow_mut();
        if curves.iter().map(|curve| curve.reading.column).eq(app.document.pinned.iter().copied()) {
            return;
        }
        curves.clear();
        self.plots.set_text_content(None);
        let pinned = app.document.pinned.iter().filter_map(|column| Reading::named(column));
        *curves = pinned.map(|reading| Curve::new(page, &self.plots, reading)).collect();
        if curves.is_empty() {
            self.plots.set_text_content(Some("Click a reading to see its curve here."));
        }
    }
}

impl Curve {
    fn new(page: &Page, plots: &Element, reading: &'static Reading) -> Curve {
        let figure: HtmlElement = make(plots, "figure");
        let caption: Element = make(&figure, "figcaption");
        let name: Element = make(&caption, "button");
        name.set_text_content(Some(&reading.full_name()));
        let now = Shown::text(make::<Element>(&caption, "b"));
        let off = Shown::text(make::<Element>(&caption, "small"));
        let place: Element = make(&figure, "div");
        set(&place, "class", "plot");
        let canvas = || {
            let canvas: HtmlCanvasElement = make(&place, "canvas");
            set(&canvas, "aria-hidden", "true");
            canvas
        };
        let (below, above, framed) = (canvas(), canvas(), Rc::default());
        let resized = page.clone();
        let size = Size::of(&place, move || resized.change());
        let came = page.clone();
        let sight = Sight::of(&place, move || came.change());
        let mut listeners = listen(page, &place, reading, &framed);
        listeners.push(alone(&figure, name));
        for canvas in [&below, &above] {
            let (page, framed) = (page.clone(), framed.clone());
            listeners.push(Listener::new(canvas, "contextrestored", move |_: Event| {
                framed.take();
                page.change();
            }));
        }
        let class = Shown::attribute(figure, "class");
        Curve { reading, class, now, off, size, sight, below, above, framed, _listeners: listeners }
    }

    /// What the reading's curve is now; `None` where there is none and where it is hidden.
    fn plot(&self, app: &App) -> Option<Plot> {
        let hidden = app.hides(self.reading.column);
        let plot = Plot::new(&app.study, &app.document, self.reading).filter(|_| !hidden)?;
        Some(plot.within(app.band(self.reading), app.document.over))
    }

    /// Letters the figure.
    fn letter(&self, page: &Page, app: &App, plot: Option<&Plot>) {
        let hovered = page.hovered().and_then(|x| plot?.at(x));
        let (_, factor, _) = app.document.units.shown(self.reading);
        let value = hovered.map(|y| y / factor).or_else(|| app.study.good.value(self.reading));
        self.now.show(&app.told(self.reading, value).text(self.reading, app.document.units));
        // Of where a pointer is, the band tells.
        let off = app.plus_minus(self.reading).filter(|off| hovered.is_none() && !off.stale);
        self.off.show(&off.map_or(String::new(), |off| off.text));
        self.class.show(if plot.is_some() { "" } else { "missing" });
    }

    fn draw(&self, page: &Page, app: &App, plot: &mut Plot) {
        let Some(size) = self.size.get() else { return };
        let mut framed = self.framed.borrow_mut();
        if let Some(framed) = framed.as_ref().filter(|_| app.held()) {
            plot.steady(framed.scale());
        }
        // Twice the pixels at least: a curve is judged by its smoothness.
        let ratio = pixel_ratio().max(2.0);
        *framed = draw_frame(&self.below, plot, size, ratio, page.theme(), framed.take());
        if let Some(framed) = &*framed {
            draw_curves(&self.above, plot, framed, page.hovered());
        }
    }
}

/// A click on its name gives a plot the room of all, and takes it back.
fn alone(figure: &HtmlElement, name: Element) -> Listener {
    let pressed = Shown::attribute(name.clone(), "aria-pressed");
    pressed.show("false");
    let figure = figure.clone();
    Listener::new(&name, "click", move |_: Event| {
        // Fails on a name that is none.
        let alone = figure.toggle_attribute("data-alone").unwrap_or_default();
        pressed.show(if alone { "true" } else { "false" });
    })
}

/// The pointer over a plot reads all of them there; a drag moves the wheel, or the rack, to where the pointer is.
fn listen(
    page: &Page,
    place: &Element,
    reading: &'static Reading,
    framed: &Rc<RefCell<Option<Framed>>>,
) -> Vec<Listener> {
    let at = {
        let (page, framed) = (page.clone(), framed.clone());
        move |event: &PointerEvent| {
            let plot = page.with(|app| Plot::new(&app.study, &app.document, reading))?;
            Some(framed.borrow().as_ref()?.abscissa(&plot, [event.offset_x(), event.offset_y()].map(f64::from)))
        }
    };
    let go = {
        let page = page.clone();
        move |x: f64| {
            page.send(page.with(|app| match app.document.over {
                Over::Steering => Stand::Rack(x),
                Over::Roll if app.document.whole => Stand::Roll(x),
                _ => Stand::Travel(x),
            }))
        }
    };
    let (held, pressed, down) = (page.clone(), place.clone(), (at.clone(), go.clone()));
    let pressing = Listener::new(place, "pointerdown", move |event: PointerEvent| {
        let _ = pressed.set_pointer_capture(event.pointer_id());
        held.send(Hand::Hold);
        down.0(&event).into_iter().for_each(&down.1);
    });
    let hovering = page.clone();
    let moving = Listener::new(place, "pointermove", move |event: PointerEvent| {
        let x = at(&event);
        hovering.set_hovered(x);
        if event.buttons() == 1 {
            x.into_iter().for_each(&go);
        }
    });
    let release = |event: &'static str| {
        let page = page.clone();
        Listener::new(place, event, move |_: Event| page.send(Hand::Release))
    };
    let left = page.clone();
    let leaving = Listener::new(place, "pointerleave", move |_: Event| left.set_hovered(None));
    vec![pressing, moving, release("pointerup"), release("pointercancel"), leaving]
}

impl Pane for Curves {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        self.follow(page, app);
        let curves = self.curves.borrow();
        // While a hand holds something, plots that are out of sight wait until it lets go, or until they come into it.
        let curves: Vec<&Curve> = curves.iter().filter(|curve| curve.sight.seen() || !app.held()).collect();
        let mut plots: Vec<Option<Plot>> = curves.iter().map(|curve| curve.plot(app)).collect();
        // Drawn before anything is written: a canvas whose font is set has the styles of all that was written worked out first.
        for (curve, plot) in curves.iter().zip(&mut plots) {
            plot.iter_mut().for_each(|plot| curve.draw(page, app, plot));
        }
        for (curve, plot) in curves.iter().zip(&plots) {
            curve.letter(page, app, plot.as_ref());
        }
        self.band.set_hidden(!plots.iter().flatten().any(|plot| plot.band.is_some()));
        for (over, pressed) in &self.over {
            pressed.show(if *over == app.document.over { "true" } else { "false" });
        }
        let (name, other) = match app.document.over {
            Over::Steering => ("travel", app.document.travel),
            _ => ("rack", app.document.rack),
        };
        let rolls = app.document.over == Over::Roll && app.document.whole;
        self.keys[0].1.show(&format!("{name} {}", signed(other, 1)));
        self.keys[1].1.show(&format!("{name} 0"));
        // Over roll there is no second line; at 0 it is the first.
        self.keys[1].0.set_hidden(rolls || other == 0.0);
        self.roll.set_hidden(!app.document.whole);
    }
}
