#include "../builder.hpp"
namespace hp { void table(Builder&); void terminals(Builder& b) { table(b); } }
