use crate::model::{Tide, Gauge, Board};
