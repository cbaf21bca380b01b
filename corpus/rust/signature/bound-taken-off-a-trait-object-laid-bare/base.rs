fn subscribe(&self, listener: Box<dyn Listener<Tide> + Send + 'static>) -> Handle;
