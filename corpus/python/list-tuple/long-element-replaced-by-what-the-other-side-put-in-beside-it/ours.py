PAGES = [
    page("index.html"),
    ("static", ["board.css", "board.js"]),
    folder("static", "*.png"),
    page("about.html"),
]
