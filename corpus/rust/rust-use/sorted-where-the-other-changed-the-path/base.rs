use quay::gauge;
use quay_span::Span;

use crate::chart::draw;

fn main() {}
