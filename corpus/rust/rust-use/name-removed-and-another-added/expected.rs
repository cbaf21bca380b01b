use crate::model::{Board, Surge, Tide};
