//! Long work, as a program of its own: a page fetches it when it has some to do. `worker.js` says when it goes on.

/// Natively there is no page; the library is what the tests use.
fn main() {}

/// What JavaScript is told.
#[cfg(target_arch = "wasm32")]
mod told {
    use js_sys::{Array, Date};
    use wasm_bindgen::prelude::*;

    /// Work under way.
    #[wasm_bindgen]
    pub struct Work(web::work::Work);

    #[wasm_bindgen]
    impl Work {
        /// Begins what a task asks for; an error is a sentence.
        #[wasm_bindgen(constructor)]
        pub fn new(task: &str) -> Result<Work, String> {
            web::work::Work::start(task).map(Work)
        }

        /// Goes on for so many ms: pieces done, pieces in all, and what the slice adds to the answer.
        pub fn slice(&mut self, ms: f64) -> Array {
            let begin = Date::now();
            // A clock that was put back ends it, too.
            let slice = self.0.slice(|| (0.0..ms).contains(&(Date::now() - begin)));
            Array::of3(&(slice.done as f64).into(), &(slice.of as f64).into(), &slice.news.into())
        }
    }
}
