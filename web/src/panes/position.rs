//! Travel, rack and, of the whole axle, roll: a handle and a number box each.

use super::number_box::NumberBox;
use crate::app::{App, Hand, Show, Stand};
use crate::browser::dom::{Shown, Veil, find, make, on, set};
use crate::browser::page::{Page, Pane, STILL};
use crate::browser::window::{matches, media};
use crate::document::Freedom;
use crate::document::place::ROLL;
use crate::input::play::Play;
use crate::text::number::{fixed, parse, signed};
use std::cell::Cell;
use web_sys::{Element, Event, HtmlButtonElement, HtmlElement, HtmlInputElement, MediaQueryList};

/// Both freedoms, movements, and the ways back.
pub struct Position {
    axes: [Axis; 3],
    wheels: [(bool, Shown); 2],
    travels: (Veil, [NumberBox; 2], NumberBox),
    plays: [Movement; 2],
    speed: Shown,
    /// Asks for as little movement as can be.
    still: Option<MediaQueryList>,
    ride: NumberBox,
}

/// A movement that can be looked at: its button, and whether that can be pressed.
struct Movement {
    play: Play,
    button: HtmlButtonElement,
    can: Cell<Option<bool>>,
    pressed: Shown,
}

/// Speeds that the button goes round.
const SPEEDS: [f64; 3] = [1.0, 2.0, 0.25];

/// A freedom with its handle, or with a box only.
struct Control {
    id: &'static str,
    freedom: Freedom,
    /// How far the handle goes each way, mm or degrees.
    reach: fn(&App) -> f64,
    /// What the handle does.
    message: fn(f64) -> Stand,
}

const TRAVEL_AXIS: Control =
    Control { id: "travel", freedom: Freedom::Travel, reach: |app| app.study.good.reach, message: Stand::Travel };

const RACK_AXIS: Control =
    Control { id: "rack", freedom: Freedom::Rack, reach: |app| app.document.rack_travel(), message: Stand::Rack };

const ROLL_AXIS: Control = Control {
    id: "roll",
    freedom: Freedom::Roll,
    reach: |app| if app.document.whole { ROLL } else { 0.0 },
    message: Stand::Roll,
};

impl Control {
    fn is_angle(&self) -> bool {
        self.freedom == Freedom::Roll
    }
}

struct Axis {
    control: &'static Control,
    veil: Veil,
    handle: HtmlInputElement,
    spoken: Shown,
    number: NumberBox,
    unit: Shown,
    ticks: Vec<Element>,
    reach: Cell<f64>,
}

impl Position {
    /// Finds the place on the page and furnishes it.
    pub fn new(page: &Page) -> Position {
        let rest = page.clone();
        on(&find::<Element>("at-rest"), "click", move |_: Event| rest.send(Stand::AtRest));
        let plays = [(Play::Bump, "play-bump"), (Play::Steer, "play-steer")].map(|(play, id)| {
            let (button, page) = (find::<HtmlButtonElement>(id), page.clone());
            if matches(STILL) {
                set(
                    &button,
                    "title",
                    "Animation is off because your system asks for reduced motion; drag the slider instead.",
                );
            }
            on(&button, "click", move |_: Event| page.play(play));
            Movement { play, can: Cell::default(), pressed: Shown::attribute(button.clone(), "aria-pressed"), button }
        });
        let (button, turned) = (find::<Element>("speed"), page.clone());
        on(&button, "click", move |_: Event| {
            let at = SPEEDS.iter().position(|speed| *speed == turned.speed()).unwrap_or(0);
            turned.set_speed(SPEEDS[(at + 1) % SPEEDS.len()]);
        });
        let axes = [&TRAVEL_AXIS, &RACK_AXIS, &ROLL_AXIS].map(|control| Axis::new(page, control));
        let wheels = [(false, "one-wheel"), (true, "whole-axle")].map(|(whole, id)| {
            let (button, page) = (find::<Element>(id), page.clone());
            on(&button, "click", move |_: Event| {
                page.send(Show::Whole(whole));
                page.refit();
            });
            (whole, Shown::attribute(button, "aria-pressed"))
        });
        let place: HtmlElement = find("travels");
        let travels = [("Left travel", 0), ("Right travel", 1)].map(|(name, side)| {
            NumberBox::named(page, &place, name, move |page, value| {
                let value = page.with(|app| app.document.units.typed_length(value));
                if let Some(mut both) = page.with(travels_now) {
                    both[side] = value;
                    page.send(Stand::Travels(both[0], both[1]));
                }
            })
        });
        let braking = NumberBox::named(page, &place, "Braking, g", |page, value| {
            page.send(Stand::Braking(value));
        });
        let ride_place: Element = find("ride");
        let ride = NumberBox::new(page, &ride_place, "Ride height at travel", |page, value| {
            take(page, Freedom::Ride, value);
        });
        Position {
            axes,
            wheels,
            travels: (Veil::of("travels"), travels, braking),
            plays,
            speed: Shown::text(button),
            still: media(STILL),
            ride,
        }
    }
}

impl Axis {
    fn new(page: &Page, control: &'static Control) -> Axis {
        let whole: HtmlElement = find(control.id);
        let label: Element = make(&whole, "label");
        label.set_text_content(Some(control.freedom.name()));
        set(&label, "for", &format!("{}-handle", control.id));
        let track: Element = make(&whole, "div");
        set(&track, "class", "track");
        let handle = handle(page, &track, control);
        let scale: Element = make(&track, "div");
        set(&scale, "class", "ticks");
        set(&scale, "aria-hidden", "true");
        let ticks = (0..5).map(|_| make(&scale, "span")).collect();
        let number =
            NumberBox::new(page, &whole, control.freedom.name(), |page, value| take(page, control.freedom, value))
                .stepped(page);
        let unit: Element = make(&whole, "span");
        let spoken = Shown::attribute(handle.clone(), "aria-valuetext");
        Axis {
            control,
            veil: Veil::of(control.id),
            handle,
            spoken,
            number,
            unit: Shown::text(unit),
            ticks,
            reach: Cell::new(0.0),
        }
    }

    fn show(&self, app: &App) {
        let reach = (self.control.reach)(app);
        self.veil.set_hidden(reach == 0.0);
        if self.reach.replace(reach) != reach {
            set(&self.handle, "min", &(-reach).to_string());
            set(&self.handle, "max", &reach.to_string());
            for (tick, part) in self.ticks.iter().zip([-1.0, -0.5, 0.0, 0.5, 1.0]) {
                let value: f64 = part * reach;
                tick.set_text_content((value.fract() == 0.0).then(|| fixed(value, 0)).as_deref());
            }
        }
        let value = self.control.freedom.value(&app.document);
        self.handle.set_value_as_number(value);
        let units = app.document.units;
        let (text, unit) = if self.control.is_angle() {
            (signed(value, 1), "°")
        } else {
            (units.signed_length(value), units.length_name())
        };
        self.spoken.show(&format!("{text} {unit}"));
        self.unit.show(unit);
        self.number.show(&text);
    }
}

/// Travel of both wheels, mm, where both are shown.
fn travels_now(app: &App) -> Option<[f64; 2]> {
    let [now, _] = app.study.good.whole.as_ref()?;
    Some([0, 1].map(|side| now.axle.sides[side].state.travel))
}

/// The handle: a drag is one undo step, and so is each key.
fn handle(page: &Page, track: &Element, control: &'static Control) -> HtmlInputElement {
    let handle: HtmlInputElement = make(track, "input");
    set(&handle, "type", "range");
    set(&handle, "step", if control.is_angle() { "0.1" } else { "0.5" });
    set(&handle, "id", &format!("{}-handle", control.id));
    for (event, message) in
        [("pointerdown", Hand::Hold), ("pointerup", Hand::Release), ("pointercancel", Hand::Release)]
    {
        let page = page.clone();
        on(&handle, event, move |_: Event| page.send(message));
    }
    let (page, moved) = (page.clone(), handle.clone());
    on(&handle, "input", move |_: Event| {
        if let Some(value) = parse(&moved.value()) {
            page.send((control.message)(value));
        }
    });
    handle
}

/// Takes a typed value: an angle in degrees, a length as lengths are shown.
fn take(page: &Page, freedom: Freedom, value: f64) {
    let length = |value| page.with(|app| app.document.units.typed_length(value));
    page.send(Stand::Typed(freedom, if freedom == Freedom::Roll { value } else { length(value) }));
}

impl Pane for Position {
    fn show(&self, page: &Page, app: &App) {
        self.axes.iter().for_each(|axis| axis.show(app));
        let still = self.still.as_ref().is_some_and(MediaQueryList::matches);
        for Movement { play, button, can, pressed } in &self.plays {
            let now = !still && (*play == Play::Bump || app.document.rack_travel() != 0.0);
            if can.replace(Some(now)) != Some(now) {
                button.set_disabled(!now);
            }
            pressed.show(if page.playing() == Some(*play) { "true" } else { "false" });
        }
        let both = travels_now(app);
        self.travels.0.set_hidden(both.is_none());
        for (number, travel) in self.travels.1.iter().zip(both.unwrap_or_default()) {
            number.show(&app.document.units.signed_length(travel));
        }
        let braking = app.study.good.whole.as_ref().and_then(|[now, _]| now.braking());
        let braking = braking.filter(|_| !app.hides("dive_braking_g"));
        self.travels.2.show(&braking.map_or("–".into(), |g| fixed(g, 2)));
        for (whole, pressed) in &self.wheels {
            pressed.show(if *whole == app.document.whole { "true" } else { "false" });
        }
        self.ride.show(&app.document.units.signed_length(app.document.ride()));
        self.speed.show(&format!("Speed {}×", page.speed()));
    }
}
