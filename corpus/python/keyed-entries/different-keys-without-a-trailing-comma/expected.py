palette = {
    "high": "#004466",
    "low": "#88bbcc",
    "slack": "#cccccc",
    "surge": "#cc2200"
}
