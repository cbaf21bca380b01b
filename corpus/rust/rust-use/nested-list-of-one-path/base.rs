use crate::{
    chart::Axis,
    port::Port,
};
