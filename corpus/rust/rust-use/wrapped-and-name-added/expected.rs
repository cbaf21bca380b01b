use crate::model::{
    Board,
    Gauge,
    Surge,
    Tide,
};
