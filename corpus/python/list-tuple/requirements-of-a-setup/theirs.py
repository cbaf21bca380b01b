setup(
    name="tideboard",
    install_requires=[
        "quay-clock>=2",
        "night-chart",
        "tide-feeds>=1.2",
    ],
)
