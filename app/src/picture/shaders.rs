//! What runs on the graphics processor: shaded steel, the silhouette, sharp edges.

/// Turns a vertex of the surface.
pub const SURFACE_VERTEX: &str = "#version 300 es
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;
layout(location = 2) in float patchNumber;
uniform mat4 clip;
uniform mat3 turn;
out vec3 facing;
flat out float kind;
void main() {
  gl_Position = clip * vec4(position, 1.0);
  facing = turn * normal;
  kind = patchNumber;
}";

/// Shades a point: a window high on the left, light back from the bench, ground faces brighter
/// than forged flanks. Numbers of the patches are those of the mesh; 6 is wood.
pub const SURFACE_FRAGMENT: &str = "#version 300 es
precision highp float;
in vec3 facing;
flat in float kind;
uniform vec3 shade;
uniform vec3 light;
uniform vec3 wood;
out vec4 colour;
const vec3 WINDOW = vec3(-0.42, 0.74, 0.53);
const vec3 BENCH = vec3(0.55, -0.62, 0.56);
void main() {
  vec3 n = normalize(facing);
  float lit = 0.5 + 0.5 * dot(n, WINDOW);
  float back = max(dot(n, BENCH), 0.0);
  float gleam = pow(max(dot(reflect(-WINDOW, n), vec3(0.0, 0.0, 1.0)), 0.0), 18.0);
  if (kind > 5.5) {
    colour = vec4(wood * (0.78 + 0.26 * lit), 1.0);
    return;
  }
  bool bright = kind > 1.5 && kind < 4.5;
  bool eye = kind > 4.5;
  float forged = 0.04 + 0.74 * lit * lit + 0.08 * back;
  float ground = 0.26 + 0.66 * lit * lit + 0.16 * back + 0.3 * gleam;
  float tone = bright ? ground : (eye ? 0.5 * forged : forged);
  colour = vec4(mix(shade, light, clamp(tone, 0.0, 1.0)), 1.0);
}";

/// Moves the back of the surface outwards by the width of a line, in pixels, and a hair away: what
/// shows of it is the silhouette, not the bottom of a hollow.
pub const HULL_VERTEX: &str = "#version 300 es
layout(location = 0) in vec3 position;
layout(location = 3) in vec3 outwards;
uniform mat4 clip;
uniform mat3 turn;
uniform vec2 pixel;
uniform float width;
const float FARTHER = 0.006;
void main() {
  vec4 place = clip * vec4(position, 1.0);
  place.z += FARTHER * place.w;
  vec2 way = (turn * outwards).xy;
  float size = length(way);
  if (size > 0.0) {
    place.xy += way / size * pixel * width * place.w;
  }
  gl_Position = place;
}";

/// One quad for each sharp edge, a line's width wide in pixels and a hair nearer than the steel.
pub const EDGE_VERTEX: &str = "#version 300 es
layout(location = 0) in vec3 start;
layout(location = 1) in vec3 end;
uniform mat4 clip;
uniform vec2 pixel;
uniform float width;
const float NEARER = 0.004;
void main() {
  vec4 p = clip * vec4(start, 1.0);
  vec4 q = clip * vec4(end, 1.0);
  vec2 along = (q.xy / q.w - p.xy / p.w) / pixel;
  float size = length(along);
  along = size > 0.0 ? along / size : vec2(1.0, 0.0);
  bool last = gl_VertexID > 1;
  float side = (gl_VertexID % 2 == 0) ? -0.5 : 0.5;
  vec4 place = last ? q : p;
  vec2 off = vec2(-along.y, along.x) * side + along * (last ? 0.3 : -0.3);
  place.xy += off * width * pixel * place.w;
  place.z -= NEARER * place.w;
  gl_Position = place;
}";

/// One tone.
pub const LINE_FRAGMENT: &str = "#version 300 es
precision mediump float;
uniform vec3 ink;
out vec4 colour;
void main() {
  colour = vec4(ink, 1.0);
}";
