fn subscribe(&self, listener: Box<dyn Listener<Tide> + 'static>) -> Handle;
