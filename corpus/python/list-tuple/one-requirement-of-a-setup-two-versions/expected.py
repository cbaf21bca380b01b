setup(
    name="tideboard",
    install_requires=[
<<<<<<< ours
        "quay-clock>=3",
=======
        "quay-clock>=2.4",
>>>>>>> theirs
    ],
)
