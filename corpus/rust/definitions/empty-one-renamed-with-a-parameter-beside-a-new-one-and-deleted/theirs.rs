const PORT: u16 = 8080;
