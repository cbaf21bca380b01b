def greet(screen):
    if screen.wide:
        banner = "Tides"
        screen.write(banner)
