PAGES = [
    page("index.html"),
    ("static", ["board.css", "board.js"]),
    page("about.html"),
]
