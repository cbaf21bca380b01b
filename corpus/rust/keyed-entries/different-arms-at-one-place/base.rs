fn draw(event: Event) -> Shape {
    match event {
        Event::High(height) => bar(height),
        Event::Low(height) => line(height),
        _ => Shape::Empty,
    }
}
