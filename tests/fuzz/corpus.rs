//! Writes what the page itself writes as a first corpus for `readers.rs`: `corpus FOLDER`.

#![allow(clippy::expect_used, reason = "what fails ends the run")]

#[path = "../tests/page/readers.rs"]
mod readers;

fn main() {
    let folder = std::env::args().nth(1).expect("The call is: corpus FOLDER");
    for (choice, (_, texts)) in readers::sound([]).iter().enumerate() {
        for (number, text) in texts.iter().enumerate() {
            let bytes: Vec<u8> = [choice as u8].into_iter().chain(text.bytes()).collect();
            std::fs::write(format!("{folder}/{choice}-{number}"), bytes).expect("a file");
        }
    }
}
