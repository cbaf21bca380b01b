use crate::model::{Tide, Gauge, Surge};
