PORTS = {
    "wick": "Wick Harbour",
}
