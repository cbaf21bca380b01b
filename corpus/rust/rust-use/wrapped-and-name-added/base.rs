use crate::model::{Board, Gauge, Tide};
