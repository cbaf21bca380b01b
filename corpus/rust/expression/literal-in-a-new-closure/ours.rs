fn inner(shape: Shape) -> Option<Shape> {
    let inner = shape.offset_left(1).and_then(|s| s.sub_width(1)).ok_or(WIDTH)?;
    inner.checked()
}
