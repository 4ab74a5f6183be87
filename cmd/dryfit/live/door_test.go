package live

import (
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

func addr(t *testing.T, s string) net.Addr {
	t.Helper()
	a, err := net.ResolveTCPAddr("tcp", s)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// asked is what a request comes to at a door; 200 where it is let in.
func asked(d *Door, method, path, host string, header ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, path, strings.NewReader(""))
	r.Host = host
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	d.guard(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = w.Write([]byte("in")) })).ServeHTTP(w, r)
	return w
}

// Who calls the page by another name, from another page, or changes something without saying
// from where, is refused. Names that lead to loopback are the way a foreign page would take
// (DNS rebinding); a request that changes something from a foreign page is the other.
func TestDoorOfLoopback(t *testing.T) {
	d := NewDoor(addr(t, "127.0.0.1:8080"), "")
	for _, c := range []struct {
		what, method, path, host string
		header                   []string
		want                     int
	}{
		{"the address bar", "GET", "/", "127.0.0.1:8080", nil, 200},
		{"by name", "GET", "/", "localhost:8080", []string{"Sec-Fetch-Site", "none"}, 200},
		{"by its long address", "GET", "/", "[::1]:8080", nil, 200},
		{"the page itself", "POST", "/ask", "127.0.0.1:8080", []string{"Origin", "http://127.0.0.1:8080"}, 200},
		{"the page's own script", "GET", "/events", "127.0.0.1:8080", []string{"Sec-Fetch-Site", "same-origin"}, 200},
		{"a link followed", "GET", "/", "127.0.0.1:8080", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}, 200},

		{"another host", "GET", "/", "tubs.example:8080", nil, 421},
		{"another port", "GET", "/", "127.0.0.1:8081", nil, 421},
		{"no port", "GET", "/", "127.0.0.1", nil, 421},
		{"no host", "GET", "/", "", nil, 421},
		{"another origin", "POST", "/ask", "127.0.0.1:8080", []string{"Origin", "http://tubs.example"}, 403},
		{"another port's origin", "POST", "/ask", "127.0.0.1:8080", []string{"Origin", "http://127.0.0.1:9"}, 403},
		{"the null origin", "POST", "/ask", "127.0.0.1:8080", []string{"Origin", "null"}, 403},
		{"an origin with TLS", "POST", "/ask", "127.0.0.1:8080", []string{"Origin", "https://127.0.0.1:8080"}, 403},
		{"localhost asks the number", "POST", "/ask", "127.0.0.1:8080", []string{"Origin", "http://localhost:8080"}, 403},
		{"no origin", "POST", "/ask", "127.0.0.1:8080", nil, 403},
		{"an image in a foreign page", "GET", "/section/x", "127.0.0.1:8080", []string{"Sec-Fetch-Site", "cross-site"}, 403},
		{"a foreign page's script", "GET", "/live.js", "127.0.0.1:8080", []string{"Sec-Fetch-Site", "same-site"}, 403},
	} {
		w := asked(d, c.method, c.path, c.host, c.header...)
		if w.Code != c.want {
			t.Errorf("%s: %d, want %d", c.what, w.Code, c.want)
		}
		if got := w.Header().Get("Content-Security-Policy"); !strings.Contains(got, "default-src 'none'") || strings.Contains(got, "unsafe") {
			t.Errorf("%s: policy %q", c.what, got)
		}
	}
}

// Beyond loopback nobody comes in without the token; the link gives it to the browser once.
func TestDoorOfANetwork(t *testing.T) {
	d := NewDoor(addr(t, "0.0.0.0:8080"), "0.0.0.0:8080")
	if d.Private() || len(d.token) < 26 || d.token == NewDoor(addr(t, "0.0.0.0:8080"), "").token {
		t.Fatalf("token %q", d.token) // 26 letters of 5 bits are 130 bits
	}
	const host = "127.0.0.1:8080"
	if w := asked(d, "GET", "/", host); w.Code != 401 {
		t.Errorf("without a token: %d", w.Code)
	}
	if w := asked(d, "GET", "/?token="+d.token+"x", host); w.Code != 401 {
		t.Errorf("with another token: %d", w.Code)
	}
	if w := asked(d, "GET", "/events?token="+d.token, host); w.Code != 401 {
		t.Errorf("the token opens the page alone: %d", w.Code)
	}
	w := asked(d, "GET", "/?token="+d.token, host)
	cookie := w.Header().Get("Set-Cookie")
	if w.Code != 303 || w.Header().Get("Location") != "/" || !strings.Contains(cookie, "HttpOnly") || !strings.Contains(cookie, "SameSite=Strict") {
		t.Errorf("with the token: %d, %q", w.Code, cookie)
	}
	if w := asked(d, "GET", "/events", host, "Cookie", d.cookieName()+"="+d.token); w.Code != 200 {
		t.Errorf("with the cookie: %d", w.Code)
	}
	if other := NewDoor(addr(t, "0.0.0.0:8081"), ""); other.cookieName() == d.cookieName() { // one jar for all ports of a host
		t.Error("two pages of one machine share a cookie")
	}
	if w := asked(d, "GET", "/events", host, "Cookie", d.cookieName()+"="+d.token[1:]); w.Code != 401 {
		t.Errorf("with a wrong cookie: %d", w.Code)
	}
	if w := asked(d, "GET", "/", "tubs.example:8080", "Cookie", d.cookieName()+"="+d.token); w.Code != 421 {
		t.Errorf("with the cookie for another host: %d", w.Code)
	}
}

// The listener of no address is loopback alone.
func TestListensOnLoopback(t *testing.T) {
	l, err := Listen("")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = l.Close() }()
	if a, ok := l.Addr().(*net.TCPAddr); !ok || !a.IP.IsLoopback() {
		t.Errorf("listens at %v", l.Addr())
	}
	for _, bad := range []string{"127.0.0.1:x", "127.0.0.1:70000", "banana", "nowhere.invalid:1", "8080"} {
		if l, err := Listen(bad); err == nil {
			_ = l.Close()
			t.Errorf("%q is taken", bad)
		}
	}
}

// An address of the long kind may stand in brackets, as in a link.
func TestListensInBrackets(t *testing.T) {
	l, err := Listen("::1")
	if err != nil {
		t.Skip("this machine has no such address")
	}
	_ = l.Close()
	for _, address := range []string{"[::1]", "[::1]:0"} {
		l, err := Listen(address)
		if err != nil {
			t.Errorf("%s: %v", address, err)
			continue
		}
		_ = l.Close()
	}
}
