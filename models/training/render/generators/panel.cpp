#include "../builder.hpp"
namespace hp { void table(Builder&); void panel(Builder& b) { table(b); } }
