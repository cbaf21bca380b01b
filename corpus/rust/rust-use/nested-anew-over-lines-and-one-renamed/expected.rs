use std::fmt;

use tide::{
    gauge::{Kind, Meter},
    port::Port,
};

pub struct Board;
