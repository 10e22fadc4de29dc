//! The picture on the graphics processor.

use js_sys::{Float32Array, Object, Uint32Array};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    HtmlCanvasElement, WebGl2RenderingContext as Gl, WebGlBuffer, WebGlContextAttributes,
    WebGlProgram, WebGlUniformLocation, WebGlVertexArrayObject,
};

use super::shaders::{EDGE_VERTEX, HULL_VERTEX, LINE_FRAGMENT, SURFACE_FRAGMENT, SURFACE_VERTEX};
use super::tones::{Tone, Tones};
use super::view::View;
use headwright::mesh::Display;

/// Width of the silhouette and of sharp edges, in CSS pixels: wide to narrow 2 : 1, the
/// silhouette seen from its inner side.
const SILHOUETTE: f32 = 1.6;
const EDGE: f32 = 1.1;

/// A WebGL2 context with all that the picture needs.
pub struct Renderer {
    gl: Gl,
    surface: Program,
    hull: Program,
    edges: Program,
    surface_array: WebGlVertexArrayObject,
    edge_array: WebGlVertexArrayObject,
    vertices: Buffer,
    triangles: Buffer,
    segments: Buffer,
    triangle_count: i32,
    segment_count: i32,
}

impl Renderer {
    /// The renderer of `canvas`; nothing where the browser has no WebGL2 or refuses it.
    pub fn new(canvas: &HtmlCanvasElement) -> Option<Self> {
        let options = WebGlContextAttributes::new();
        options.set_antialias(true);
        options.set_alpha(true);
        let gl: Gl = canvas
            .get_context_with_context_options("webgl2", &options)
            .ok()??
            .dyn_into()
            .ok()?;
        let surface = Program::new(&gl, SURFACE_VERTEX, SURFACE_FRAGMENT)?;
        let hull = Program::new(&gl, HULL_VERTEX, LINE_FRAGMENT)?;
        let edges = Program::new(&gl, EDGE_VERTEX, LINE_FRAGMENT)?;
        let surface_array = gl.create_vertex_array()?;
        let edge_array = gl.create_vertex_array()?;
        let vertices = Buffer::new(&gl, Gl::ARRAY_BUFFER)?;
        let triangles = Buffer::new(&gl, Gl::ELEMENT_ARRAY_BUFFER)?;
        let segments = Buffer::new(&gl, Gl::ARRAY_BUFFER)?;
        gl.bind_vertex_array(Some(&surface_array));
        vertices.bind(&gl);
        triangles.bind(&gl);
        for (location, size, offset) in [(0, 3, 0), (1, 3, 3), (2, 1, 6), (3, 3, 7)] {
            attribute(&gl, location, size, offset, Display::STRIDE);
        }
        gl.bind_vertex_array(Some(&edge_array));
        segments.bind(&gl);
        for (location, offset) in [(0, 0), (1, 3)] {
            attribute(&gl, location, 3, offset, 6);
            gl.vertex_attrib_divisor(location, 1);
        }
        gl.bind_vertex_array(None);
        gl.enable(Gl::DEPTH_TEST);
        gl.enable(Gl::CULL_FACE);
        gl.clear_color(0.0, 0.0, 0.0, 0.0);
        Some(Self {
            gl,
            surface,
            hull,
            edges,
            surface_array,
            edge_array,
            vertices,
            triangles,
            segments,
            triangle_count: 0,
            segment_count: 0,
        })
    }

    /// Takes another head into the buffers.
    pub fn load(&mut self, shown: &Display) {
        let gl = &self.gl;
        // The index buffer belongs to the array that is bound.
        gl.bind_vertex_array(Some(&self.surface_array));
        let floats = |values: &[f32]| Object::from(Float32Array::from(values));
        self.vertices
            .fill(gl, &floats(&shown.vertices), shown.vertices.len());
        let indices = Object::from(Uint32Array::from(shown.triangles.as_slice()));
        self.triangles.fill(gl, &indices, shown.triangles.len());
        self.segments
            .fill(gl, &floats(&shown.edges), shown.edges.len());
        gl.bind_vertex_array(None);
        self.triangle_count = shown.triangles.len() as i32;
        self.segment_count = (shown.edges.len() / 6) as i32;
    }

    /// Draws the head. `size` is the canvas in its own pixels, `density` how many of them make a
    /// CSS pixel.
    pub fn draw(&self, view: &View, tones: &Tones, size: [u32; 2], density: f64) {
        let gl = &self.gl;
        gl.viewport(0, 0, size[0] as i32, size[1] as i32);
        gl.clear(Gl::COLOR_BUFFER_BIT | Gl::DEPTH_BUFFER_BIT);
        let pixel = size.map(|pixels| 2.0 / pixels.max(1) as f32);
        let width = |css: f32| css * density as f32;
        let clip = view.clip();
        let [right, up, towards] = view.turn();
        let mut turn = [0.0; 9];
        for k in 0..3 {
            for (row, axis) in [right, up, towards].iter().enumerate() {
                turn[3 * k + row] = axis[k] as f32;
            }
        }

        gl.bind_vertex_array(Some(&self.surface_array));
        self.surface.start(gl, &clip);
        self.surface.matrix3(gl, "turn", &turn);
        self.surface.tone(gl, "shade", tones.shade);
        self.surface.tone(gl, "light", tones.light);
        self.surface.tone(gl, "wood", tones.wood);
        gl.cull_face(Gl::BACK);
        self.triangles(gl);

        self.hull.start(gl, &clip);
        self.hull.matrix3(gl, "turn", &turn);
        self.hull.line(gl, pixel, width(SILHOUETTE), tones.ink);
        gl.cull_face(Gl::FRONT);
        self.triangles(gl);

        gl.bind_vertex_array(Some(&self.edge_array));
        self.edges.start(gl, &clip);
        self.edges.line(gl, pixel, width(EDGE), tones.ink);
        gl.disable(Gl::CULL_FACE);
        gl.draw_arrays_instanced(Gl::TRIANGLE_STRIP, 0, 4, self.segment_count);
        gl.enable(Gl::CULL_FACE);
        gl.bind_vertex_array(None);
    }

    fn triangles(&self, gl: &Gl) {
        gl.draw_elements_with_i32(Gl::TRIANGLES, self.triangle_count, Gl::UNSIGNED_INT, 0);
    }
}

/// Tells where the bound buffer holds an attribute of 32-bit floats.
fn attribute(gl: &Gl, location: u32, size: i32, offset: i32, stride: usize) {
    const FLOAT: i32 = 4;
    gl.enable_vertex_attrib_array(location);
    let stride = stride as i32 * FLOAT;
    gl.vertex_attrib_pointer_with_i32(location, size, Gl::FLOAT, false, stride, offset * FLOAT);
}

/// A buffer that is filled again in place as long as its content fits.
struct Buffer {
    buffer: WebGlBuffer,
    target: u32,
    /// Room, in numbers of 32 bits.
    room: usize,
}

impl Buffer {
    fn new(gl: &Gl, target: u32) -> Option<Self> {
        Some(Self {
            buffer: gl.create_buffer()?,
            target,
            room: 0,
        })
    }

    fn bind(&self, gl: &Gl) {
        gl.bind_buffer(self.target, Some(&self.buffer));
    }

    fn fill(&mut self, gl: &Gl, content: &Object, count: usize) {
        const NUMBER: usize = 4;
        self.bind(gl);
        if count > self.room {
            // Room for a head that grows while it is dragged.
            self.room = count + count / 2;
            let bytes = (self.room * NUMBER) as i32;
            gl.buffer_data_with_i32(self.target, bytes, Gl::DYNAMIC_DRAW);
        }
        gl.buffer_sub_data_with_i32_and_array_buffer_view(self.target, 0, content);
    }
}

/// A program and where its uniforms are.
struct Program {
    program: WebGlProgram,
    places: Vec<(&'static str, Option<WebGlUniformLocation>)>,
}

/// All uniforms of all programs; a program lacks some.
const UNIFORMS: [&str; 8] = [
    "clip", "turn", "shade", "light", "wood", "ink", "pixel", "width",
];

impl Program {
    fn new(gl: &Gl, vertex: &str, fragment: &str) -> Option<Self> {
        let program = gl.create_program()?;
        for (kind, source) in [(Gl::VERTEX_SHADER, vertex), (Gl::FRAGMENT_SHADER, fragment)] {
            let shader = gl.create_shader(kind)?;
            gl.shader_source(&shader, source);
            gl.compile_shader(&shader);
            gl.attach_shader(&program, &shader);
        }
        gl.link_program(&program);
        let linked = gl.get_program_parameter(&program, Gl::LINK_STATUS);
        (linked == JsValue::TRUE).then(|| {
            let place = |name| (name, gl.get_uniform_location(&program, name));
            let places = UNIFORMS.into_iter().map(place).collect();
            Self { program, places }
        })
    }

    fn place(&self, name: &str) -> Option<&WebGlUniformLocation> {
        let (_, place) = self.places.iter().find(|(known, _)| *known == name)?;
        place.as_ref()
    }

    fn start(&self, gl: &Gl, clip: &[f32; 16]) {
        gl.use_program(Some(&self.program));
        gl.uniform_matrix4fv_with_f32_array(self.place("clip"), false, clip);
    }

    fn matrix3(&self, gl: &Gl, name: &str, matrix: &[f32; 9]) {
        gl.uniform_matrix3fv_with_f32_array(self.place(name), false, matrix);
    }

    fn tone(&self, gl: &Gl, name: &str, [r, g, b]: Tone) {
        gl.uniform3f(self.place(name), r, g, b);
    }

    fn line(&self, gl: &Gl, pixel: [f32; 2], width: f32, ink: Tone) {
        gl.uniform2f(self.place("pixel"), pixel[0], pixel[1]);
        gl.uniform1f(self.place("width"), width);
        self.tone(gl, "ink", ink);
    }
}
