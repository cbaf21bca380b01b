use crate::{feed::{Error, Feed, Poll}, model::{Gauge, Tide}};

pub mod board;
