// Passes a vertex on in room coordinates.
layout(location = 0) in vec3 position_m;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec4 colour;
layout(location = 3) in vec3 tangent;

uniform mat4 clip_from_room;
uniform vec3 eye;

out vec3 v_position;
out vec3 v_from_eye;
out vec3 v_normal;
out vec4 v_colour;
out vec3 v_tangent;

void main() {
    v_position = position_m;
    v_from_eye = position_m - eye;
    v_normal = normal;
    v_colour = colour;
    v_tangent = tangent;
    gl_Position = clip_from_room * vec4(position_m, 1.0);
}
