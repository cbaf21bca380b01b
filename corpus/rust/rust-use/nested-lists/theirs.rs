use crate::{feed::{Feed, Poll}, model::{Gauge, Surge, Tide}};

pub mod board;
