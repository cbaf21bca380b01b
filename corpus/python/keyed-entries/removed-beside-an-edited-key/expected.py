PORTS = {
    "wick": "Wick Outer Harbour",
}
