use crate::{feed::{Feed, Poll}, model::{Gauge, Tide}};

pub mod board;
