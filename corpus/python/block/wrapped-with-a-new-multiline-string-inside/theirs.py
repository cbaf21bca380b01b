def greet(screen):
    banner = """
Tides
  today
"""
    screen.write(banner)
