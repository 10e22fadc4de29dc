"""The reference heads, as design files. Each is lopsided in every way its parts allow, so that no sign can hide."""


def mm(value):
    return f"{value} mm"


def section(width, height, corner):
    return {"width": mm(width), "height": mm(height), "corner": corner}


def chamfer(size):
    return {"chamfer": {"size": mm(size)}}


def rounded(radius):
    return {"rounded": {"radius": mm(radius)}}


def conic(across, up, weight):
    return {"conic": {"across": mm(across), "up": mm(up), "weight": weight}}


def neck(at, width, height, corner, transition):
    return {"at": mm(at), **section(width, height, corner), "transition": transition}


def face(width, height, corner, land, crown, edge):
    return {"face": {**section(width, height, corner), "land": mm(land),
                     "crown": {"radius": mm(crown)} if crown else "flat", "edge": edge}}


def ball(diameter, neck):
    return {"ball": {"diameter": mm(diameter), "neck": mm(neck)}}


def pein(at, width, height, corner, direction, edge, nose, rocker=None, hollow=None, corner_break=None):
    sizes = {"rocker": rocker, "hollow": hollow, "corner_break": corner_break}
    return {"pein": {"at": mm(at), **section(width, height, corner), "direction": f"{direction}°", "edge": mm(edge),
                     "nose": mm(nose), **{name: mm(size) for name, size in sizes.items() if size is not None}}}


def end(reach, transition, tip, necks=(), drop=None):
    return {"necks": list(necks), "transition": transition, "reach": mm(reach), **({"drop": f"{drop}°"} if drop else {}), **tip}


def level(length, width=None, radius=None):
    sizes = {"length": length, "width": width, "radius": radius}
    return {name: mm(size) for name, size in sizes.items() if size is not None}


def eye(outline, top, waist, bottom, waist_height, **more):
    return {"outline": outline, "top": level(*top), "waist": level(*waist), "bottom": level(*bottom),
            "waist_height": mm(waist_height), **more}


def cheeks(length, width, height, corner, offset, **more):
    return {"length": mm(length), **section(width, height, corner), "offset": mm(offset), **more}


def design(name, note, cheeks, eye, front, back, density="7.85 g/cm³"):
    return {"format": "headwright design", "version": 1, "design": {
        "name": name, "note": note, "density": density, "cheeks": cheeks, "eye": eye, "front": front, "back": back,
        "bar": {"section": {"shape": "round", "diameter": "45 mm"}, "losses": [], "confidence": 0.9, "rule": "1 mm"}}}


DESIGNS = [
    design(
        "Round and square face", "Octagonal necks, rounding and chamfered edge, obround eye with offset.",
        cheeks(44, 44, 42, chamfer(6), 1.5),
        eye("obround", (31, 20), (28, 18), (30, 19.5), 1),
        end(58, "smooth", face(40, 40, "round", 11, 180, {"rounded": "2 mm"}), [neck(32, 36, 34, "octagon", "smooth")]),
        end(52, "smooth", face(38, 36, chamfer(5), 10, 260, {"chamfered": "1.5 mm"}),
            [neck(31, 35, 36.5, "octagon", "straight")]),
    ),
    design(
        "Conic corners", "Weights that change along the runs, a corner that ends sharp, a rounded rectangle with a low waist.",
        cheeks(46, 43, 46, conic(7, 9, 0.4), -1.25),
        eye("rounded_rectangle", (32, 21, 6), (27, 17, 4), (30, 20, 5), -4),
        end(62, "straight", face(41, 37, conic(12, 9, 0.9), 12, 90, {"rounded": "2.5 mm"}),
            [neck(33, 36, 38, conic(10, 8, 0.75), "smooth"), neck(42, 37, 35, rounded(9), "straight")]),
        end(55, "smooth", face(39, 35, "sharp", 9, None, "sharp"), [neck(30, 37, 40, conic(9, 7, 0.2), "smooth")]),
        density="7.83 g/cm³",
    ),
    design(
        "Round cheeks", "Elliptical cheeks: the mouths leave through the worked corners.",
        cheeks(48, 50, 46, "round", 2),
        eye("ellipse", (34, 21), (29, 18), (32, 20), 2.5),
        end(60, "smooth", face(43, 43, "round", 9, 70, {"chamfered": "2 mm"}), [neck(34, 38, 36, "round", "smooth")]),
        end(54, "straight", face(40, 36, rounded(6), 11, 150, {"rounded": "3 mm"}),
            [neck(32, 34, 37, rounded(12), "smooth")]),
    ),
    design(
        "Ball and face", "A ball on a dropped neck, and a dropped face.",
        cheeks(42, 41, 39, "octagon", -1),
        eye("round", (24,), (21,), (23,), -1.5),
        end(56, "smooth", face(34, 34, "octagon", 10, 120, {"rounded": "2 mm"}),
            [neck(28, 29, 28, "octagon", "smooth")], drop=1.5),
        end(60, "straight", ball(32, 22), [neck(25, 27, 26, "round", "smooth")], drop=3),
    ),
    design(
        "Cross pein", "Rocker and hollow, flared edge.",
        cheeks(44, 42, 44, chamfer(7), 1),
        eye("obround", (31, 20), (27.5, 17.5), (30, 19), 0.5),
        end(57, "smooth", face(41, 39, chamfer(8), 12, 200, {"rounded": "2 mm"}), [neck(30, 36, 37, "octagon", "smooth")]),
        end(84, "smooth", pein(36, 32, 34, chamfer(6), 0, 38, 3, rocker=80, hollow=1),
            [neck(29, 34, 36, "octagon", "straight")]),
    ),
    design(
        "Straight pein and ball", "The edge along the handle, its ends broken; a ball in front.",
        cheeks(43, 40, 42, conic(8, 6, 0.55), -1.5),
        eye("ellipse", (30, 19), (27, 17), (29, 18.5), 1),
        end(63, "smooth", ball(34, 24), [neck(29, 30, 28, "round", "smooth")]),
        end(78, "straight", pein(34, 33, 35, rounded(8), 90, 30, 2.5, rocker=120, hollow=0.6, corner_break=2.5),
            [neck(27, 35, 37, conic(8, 7, 0.6), "smooth")], drop=1),
    ),
    design(
        "Two peins", "A diagonal pein behind and a cross pein in front, both dropped.",
        cheeks(45, 41, 43, chamfer(7.5), 0.75),
        eye("obround", (30, 20), (27, 18), (29, 19), -1),
        end(76, "smooth", pein(38, 32, 31, "octagon", 0, 29, 4, hollow=0.8, corner_break=3),
            [neck(30, 34, 35, "octagon", "smooth")], drop=4),
        end(82, "straight", pein(35, 34, 30, conic(9, 7, 0.5), 35, 33, 3, rocker=90, hollow=1.2), drop=3),
    ),
    design(
        "Swell and lugs", "Cheeks swollen at the eye, lugs above and below.",
        cheeks(46, 38, 37, chamfer(5), -1.5, swell="3 mm", lugs={"length": "36 mm", "top": "4 mm", "bottom": "2.5 mm"}),
        eye("obround", (30, 20), (27, 18), (29, 19), 1.5),
        end(57, "smooth", face(36, 34, "round", 10, 140, {"rounded": "2 mm"}), [neck(33, 31, 30, "octagon", "smooth")]),
        end(63, "smooth", face(33, 35, rounded(7), 12, 60, {"chamfered": "1.8 mm"}), [neck(32, 30, 29, rounded(8), "smooth")]),
    ),
    design(
        "Cocked eye", "Cocked both ways, arc walls, broken mouths.",
        cheeks(48, 45, 44, conic(9, 8, 0.3), 1),
        eye("rounded_rectangle", (31, 21, 7), (28, 18, 6), (30, 20, 6.5), -2,
            wall="arc", cock_along="2°", cock_across="-1.5°", mouth_break="1.5 mm"),
        end(60, "smooth", face(42, 40, "octagon", 11, 160, {"rounded": "2 mm"}), [neck(33, 37, 36, "octagon", "smooth")], drop=-1),
        end(56, "straight", face(39, 41, "round", 12, 55, {"rounded": "1.5 mm"}), [neck(31, 36, 35, "octagon", "smooth")]),
    ),
    design(
        "Everything", "A dropped diagonal pein, swell, lugs, a cocked eye with arc walls and broken mouths, a ball.",
        cheeks(50, 39, 38, rounded(7), -1, swell="2.5 mm", lugs={"length": "40 mm", "top": "2 mm", "bottom": "3.5 mm"}),
        eye("obround", (31, 20), (28, 18), (30, 19), 2,
            wall="arc", cock_along="-1.5°", cock_across="1°", mouth_break="1 mm"),
        end(64, "smooth", ball(33, 23), [neck(33, 28, 29, rounded(9), "smooth")], drop=2),
        end(88, "smooth", pein(40, 33, 31, chamfer(7), -50, 32, 3.5, rocker=100, hollow=1.5, corner_break=2),
            [neck(31, 34, 33, conic(9, 8, 0.4), "smooth")], drop=5),
        density="7.8 g/cm³",
    ),
]
