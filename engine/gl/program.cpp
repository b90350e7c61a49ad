#include "engine/gl/program.h"

#include "engine/gl/shader_source.h"

#include <glad/gl.h>
#include <glm/gtc/type_ptr.hpp>
#include <vector>

namespace keystead {

unsigned ProgramKind::make() {
    return glCreateProgram();
}
void ProgramKind::destroy(unsigned id) {
    glDeleteProgram(id);
}

namespace {

Result<unsigned> compiled(GLenum stage, const std::string& name, const std::string& defines) {
    Result<std::string> body = shader_source(shader_folder(), name);
    if (!body) return body.problem();
    const std::string text = "#version 410 core\n" + defines + "\n" + body.value();
    const char* lines = text.c_str();
    const GLuint shader = glCreateShader(stage);
    glShaderSource(shader, 1, &lines, nullptr);
    glCompileShader(shader);
    GLint good = GL_FALSE;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &good);
    if (good == GL_TRUE) return shader;
    std::vector<char> log(4096);
    glGetShaderInfoLog(shader, static_cast<GLsizei>(log.size()), nullptr, log.data());
    glDeleteShader(shader);
    return Problem{name, "does not compile", log.data()};
}

} // namespace

Result<Program> Program::load(const std::string& vertex, const std::string& fragment,
                              const std::string& defines) {
    Program made;
    made.program_ = GlObject<ProgramKind>::make();
    const GLuint id = made.program_.id();
    std::vector<GLuint> shaders;
    Outcome wrong;
    for (const auto& [stage, name] :
         {std::pair<GLenum, const std::string&>{GL_VERTEX_SHADER, vertex},
          {GL_FRAGMENT_SHADER, fragment}}) {
        Result<unsigned> shader = compiled(stage, name, defines);
        if (!shader) {
            wrong = shader.problem();
            break;
        }
        glAttachShader(id, shader.value());
        shaders.push_back(shader.value());
    }
    if (!wrong) {
        glLinkProgram(id);
        GLint good = GL_FALSE;
        glGetProgramiv(id, GL_LINK_STATUS, &good);
        if (good != GL_TRUE) {
            std::vector<char> log(4096);
            glGetProgramInfoLog(id, static_cast<GLsizei>(log.size()), nullptr, log.data());
            wrong = Problem{vertex + " + " + fragment, "does not link", log.data()};
        }
    }
    for (const GLuint shader : shaders) {
        glDetachShader(id, shader);
        glDeleteShader(shader);
    }
    if (wrong) return *wrong;
    return made;
}

void Program::use() const {
    glUseProgram(program_.id());
}

int Program::location(const char* name) {
    const auto known = locations_.find(name);
    if (known != locations_.end()) return known->second;
    const int found = glGetUniformLocation(program_.id(), name);
    locations_.emplace(name, found);
    return found;
}

void Program::set(const char* name, int value) {
    glUniform1i(location(name), value);
}
void Program::set(const char* name, float value) {
    glUniform1f(location(name), value);
}
void Program::set(const char* name, const glm::vec2& value) {
    glUniform2fv(location(name), 1, glm::value_ptr(value));
}
void Program::set(const char* name, const glm::vec3& value) {
    glUniform3fv(location(name), 1, glm::value_ptr(value));
}
void Program::set(const char* name, const glm::vec4& value) {
    glUniform4fv(location(name), 1, glm::value_ptr(value));
}
void Program::set(const char* name, const glm::mat3& value) {
    glUniformMatrix3fv(location(name), 1, GL_FALSE, glm::value_ptr(value));
}
void Program::set(const char* name, const glm::mat4& value) {
    glUniformMatrix4fv(location(name), 1, GL_FALSE, glm::value_ptr(value));
}
void Program::set(const char* name, std::span<const glm::vec4> values) {
    if (values.empty()) return;
    glUniform4fv(location(name), static_cast<GLsizei>(values.size()), &values[0].x);
}
void Program::set(const char* name, std::span<const glm::mat4> values) {
    if (values.empty()) return;
    glUniformMatrix4fv(location(name), static_cast<GLsizei>(values.size()), GL_FALSE,
                       &values[0][0].x);
}

} // namespace keystead
