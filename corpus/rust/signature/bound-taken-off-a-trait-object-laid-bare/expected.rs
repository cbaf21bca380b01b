fn subscribe(&self, listener: Box<Listener<Tide> + 'static>) -> Handle;
