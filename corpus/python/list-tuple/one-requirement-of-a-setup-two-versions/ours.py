setup(
    name="tideboard",
    install_requires=[
        "quay-clock>=3",
    ],
)
