// Copyright of the tideboard authors.
// Licensed under the terms in LICENSE.

use std::rc::Rc;

use tide::Gauge;

pub struct Board;
