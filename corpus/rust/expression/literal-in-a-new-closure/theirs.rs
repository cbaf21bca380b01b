fn inner(shape: Shape, span: Span) -> Option<Shape> {
    let inner = shape.offset_left(1, span)?.sub_width(1, span)?;
    inner.checked()
}
