def greet(screen):
    banner = "Tides"
    screen.write(banner)
