def greet(screen):
    if screen.wide:
        banner = """
Tides
  today
"""
        screen.write(banner)
