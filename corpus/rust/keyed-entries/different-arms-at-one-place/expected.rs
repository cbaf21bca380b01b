fn draw(event: Event) -> Shape {
    match event {
        Event::High(height) => bar(height),
        Event::Low(height) => line(height.abs()),
<<<<<<< ours
        Event::Slack => Shape::Dot,
=======
        Event::Surge { .. } => Shape::Flag,
>>>>>>> theirs
        _ => Shape::Empty,
    }
}
