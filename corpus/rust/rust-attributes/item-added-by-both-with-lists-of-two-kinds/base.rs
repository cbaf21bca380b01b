pub struct Port;
