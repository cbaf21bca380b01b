use harbour_quay::gauge;
use harbour_span::Span;

use crate::chart::draw;

fn main() {}
