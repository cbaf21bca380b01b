fn subscribe(&self, listener: Box<Listener<Tide> + Send + 'static>) -> Handle;
