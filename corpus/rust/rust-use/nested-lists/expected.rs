use crate::{feed::{Error, Feed, Poll}, model::{Gauge, Surge, Tide}};

pub mod board;
