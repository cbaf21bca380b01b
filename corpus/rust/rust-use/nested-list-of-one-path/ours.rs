use crate::{
    chart::Axis,
    gauge::{Gauge, Reading, Unit},
    port::Port,
};
