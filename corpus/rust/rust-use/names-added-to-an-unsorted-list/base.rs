use crate::model::{Tide, Gauge};
