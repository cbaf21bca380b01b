use crate::model::{Board, Tide};
