fn draw() {}
