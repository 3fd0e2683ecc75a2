// Only what is used; form fields are the browser's own, because a label, a hint and an error belong to
// one field only where all of them stand in the same tree.
import '@fluentui/web-components/button/define.js';
import '@fluentui/web-components/progress-bar/define.js';
import '@fluentui/web-components/tab/define.js';
import '@fluentui/web-components/tablist/define.js';
