// Copyright of the tideboard authors.
// Licensed under the terms in LICENSE.

use tide::Gauge;
use std::rc::Rc;

pub struct Board;
