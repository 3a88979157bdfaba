/// <reference types="@sveltejs/kit" />
export {};
