use crate::{
    chart::Axis,
    gauge::{Gauge, Reading},
    port::Port,
};
