fn draw(event: Event) -> Shape {
    match event {
        Event::High(height) => bar(height),
        Event::Low(height) => line(height.abs()),
        Event::Surge { .. } => Shape::Flag,
        _ => Shape::Empty,
    }
}
