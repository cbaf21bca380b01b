ALLOWED = {
    "auth",
    "debug",
    "gauge",
    "jsonp",
    "port",
    "versions",
    "chart",
}
