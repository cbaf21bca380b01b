use harbour_span::Span;
use quay::gauge;

use crate::chart::draw;

fn main() {}
