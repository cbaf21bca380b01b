PAGES = [
    page("index.html"),
    folder("static", "*.png"),
    page("help.html"),
]
