fn inner(shape: Shape) -> Option<Shape> {
    let inner = shape.offset_left(1)?.sub_width(1)?;
    inner.checked()
}
