def main():
    serve(make_app(debug=False, theme="night"), port=8080, host="0.0.0.0")
