//! Real repositories and the real git: each test is a sentence about what a person will see.

#[path = "../support/mod.rs"]
mod support;

mod conflicts;
mod doctor;
mod faults;
mod forecast;
mod install;
mod lines_today;
mod log;
mod paths;
mod places;
mod replay;
mod retry;
mod settings;
mod story;
mod taken_back;
mod workflows;
