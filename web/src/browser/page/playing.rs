//! Movements that run by themselves, frame by frame.

use super::Page;
use crate::app::Run;
use crate::input::play::Play;

/// A movement under way.
#[derive(Clone, Copy)]
pub(super) struct Playing {
    play: Play,
    /// Travel and rack when it began, mm.
    from: [f64; 2],
    /// Seconds of the movement gone by, and the clock of the last frame, ms; 0 before the first.
    gone: f64,
    clock: f64,
}

impl Page {
    /// The movement under way.
    pub fn playing(&self) -> Option<Play> {
        self.0.playing.get().map(|playing| playing.play)
    }

    /// Starts a movement, or stops the one under way. The whole of it is one step to undo; a greeting is none.
    pub fn play(&self, play: Play) {
        let stopped = self.playing();
        self.stop();
        if stopped != Some(play) {
            let from = self.with(|app| [app.document.travel, app.document.rack]);
            if play != Play::Greeting {
                self.send(Run::Begin);
            }
            self.0.playing.set(Some(Playing { play, from, gone: 0.0, clock: 0.0 }));
            self.change();
        }
    }

    /// Stops the greeting, if it is under way, and brings the axle back to where it stood: nobody has asked for another position.
    pub(super) fn end_greeting(&self) {
        if let Some(Playing { from: [travel, rack], .. }) =
            self.0.playing.get().filter(|playing| playing.play == Play::Greeting)
        {
            self.0.playing.set(None);
            self.pass(Run::To(travel, rack));
            self.change();
        }
    }

    /// Stops the movement under way, where it is.
    pub fn stop(&self) {
        self.end_greeting();
        if self.0.playing.replace(None).is_some() {
            self.write_soon();
        }
        self.change();
    }

    /// How fast movements run; 1 is four seconds a turn.
    pub fn speed(&self) -> f64 {
        self.0.speed.get()
    }

    /// Sets it.
    pub fn set_speed(&self, speed: f64) {
        self.0.speed.set(speed);
        self.change();
    }

    /// Moves on by the time since the last frame.
    pub(super) fn advance(&self, clock: f64) {
        let Some(mut playing) = self.0.playing.get() else { return };
        // A tab that was hidden goes on where it was, not where it would have been.
        let step = if playing.clock == 0.0 { 0.0 } else { (clock - playing.clock).min(100.0) / 1000.0 };
        playing.gone += step * self.speed();
        playing.clock = clock;
        let stroke = self.with(|app| app.document.rack_travel());
        let place = playing.play.position(playing.gone, playing.from, stroke);
        self.0.playing.set(place.map(|_| playing));
        if place.is_none() {
            self.write_soon();
        }
        let [travel, rack] = place.unwrap_or(playing.from);
        // Not sent: what is written once nothing changes any more must not wait for the movement's end.
        self.pass(Run::To(travel, rack));
        self.change();
    }
}
