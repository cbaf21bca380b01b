palette = {
    "high": "#004466",
    "low": "#88bbcc"
}
