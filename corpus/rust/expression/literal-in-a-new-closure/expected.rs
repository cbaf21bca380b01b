fn inner(shape: Shape, span: Span) -> Option<Shape> {
<<<<<<< ours
    let inner = shape.offset_left(1).and_then(|s| s.sub_width(1)).ok_or(WIDTH)?;
=======
    let inner = shape.offset_left(1, span)?.sub_width(1, span).ok_or(WIDTH)?;
>>>>>>> theirs
    inner.checked()
}
