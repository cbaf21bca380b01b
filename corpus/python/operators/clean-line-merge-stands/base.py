risky = (
    level > 4
    and wind > 6
    and pressure < 990
)
